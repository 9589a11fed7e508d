/**
 * What it means for the verdict that a field of the job is left out. A field without a class does not compile, nor
 * does a class without its field.
 */
import type { FieldPath } from './fieldPaths.ts'

/**
 * `knowledge`: absent means unknown; taking it away may turn stop into not judged, and nothing into go or caution.
 * `defaulted`: a stated default takes its place, on the safe side of what is usual.
 * `description`: no effect on any verdict.
 */
export type FieldClass = 'knowledge' | 'defaulted' | 'description'

export interface FieldMeaning {
  readonly class: FieldClass
  /** A sentence on what absence means. */
  readonly absent: string
}

const knowledge = (absent: string): FieldMeaning => ({ class: 'knowledge', absent })
const defaulted = (absent: string): FieldMeaning => ({ class: 'defaulted', absent })
const description = (absent: string): FieldMeaning => ({ class: 'description', absent })

/** The sentence of every field, and only of those, that may be neither left out nor null. */
export const REQUIRED = 'Cannot be left out: a file without it is refused.'
const known = knowledge(REQUIRED)
const label = description(REQUIRED)

/** The same fields wherever their group stands. */
const under = <P extends string, K extends string>(
  group: P,
  fields: Readonly<Record<K, FieldMeaning>>,
): { readonly [Path in K as `${P}${Path}`]: FieldMeaning } =>
  Object.fromEntries(Object.entries(fields).map(([key, value]) => [`${group}${key}`, value])) as {
    [Path in K as `${P}${Path}`]: FieldMeaning
  }

const ring = { x: known, y: known, bulge: defaulted('The edge to the next vertex is straight.') }
const footprint = { '.circle': known, '.rect[]': known, ...under('.outline[].', ring) }
const point = { '.x': known, '.y': known }
const picture = { '.name': label, '.type': label, '.width': label, '.height': label, '.data': label }
const ownName = description('It goes by its id.')
const byProgram = description('The program chooses; the drawing looks different, the job is the same.')
const doubt = defaulted('The standard doubt takes its place, and its reason is said in the core.')
const clampUnknown = knowledge(
  'What this clamp holds is not known; it counts as nothing, and whether it stays on itself is not judged.',
)
const joint = knowledge('How hard this stud pulls is not known; what it holds is not judged.')
/** A stud, what is on it, and how it is tightened. */
const fastening = {
  'stud.thread': joint,
  'stud.class': joint,
  'stud.length': knowledge('Whether the stud is long enough is not known.'),
  nut: defaulted('The usual nut of the thread.'),
  'nut.acrossFlats': known,
  'nut.height': known,
  washer: defaulted('The usual washer of the thread.'),
  'washer.diameter': known,
  'washer.thickness': known,
  torque: joint,
  lubricated: defaulted('The threads count as dry: less of the torque stretches the stud.'),
}
const strap = {
  length: known,
  width: known,
  thickness: known,
  boltFrom: known,
  opening: known,
  slotted: known,
  steel: defaulted('The weakest steel that straps are made of.'),
}
const kit = { id: label, name: ownName, count: label }
const ownClass = description('The class of these studs is not known.')
const stockStrap = {
  length: label,
  width: label,
  thickness: label,
  boltFrom: label,
  opening: label,
  slotted: label,
  steel: description('The steel of these straps is not known.'),
}
const plainHole = defaulted('A plain hole.')
const emptyBox = description('Its place in the title block stays empty.')

export const FIELD_CLASSES: Readonly<Record<FieldPath, FieldMeaning>> = {
  format: label,
  version: label,
  title: label,
  partNumber: description('The sheet has no part number.'),
  documentNumber: description('The sheet has no document number.'),
  revisions: description('The sheet lists no revisions.'),
  ...under('revisions[].', { mark: label, date: label, text: label }),
  notes: description('The sheet has no notes.'),
  displayUnits: label,

  'lathe.name': label,
  'lathe.swingOverBed': known,
  'lathe.swingOverCrossSlide': known,
  'lathe.gap': defaulted('The bed has no gap: the swing over the bed counts along all of it.'),
  ...under('lathe.gap.', { swing: known, width: known, open: known }),
  'lathe.speeds.steps[].rpm': known,
  'lathe.speeds.steps[].backGear': description('The step runs without back gear, or the lathe has none.'),
  'lathe.speeds.stepless': defaulted('The spindle turns at its steps alone.'),
  'lathe.speeds.stepless[]': known,
  // Most shops cannot know these of their lathe.
  'lathe.maxSpindleSpeed': defaulted(
    'The fastest gear is taken as what the spindle bears; a caution says so.',
  ),
  'lathe.noseOverhang': defaulted('The bending moment at the front bearing is left out.'),
  'lathe.loadLimit': defaulted('The nose is taken to carry what is on it; a caution says so.'),
  'lathe.startTime': defaulted('It starts within half a second.'),
  'lathe.brakeTime': defaulted('It stops within half a second.'),
  'lathe.barReach': knowledge('What of the carriage comes near the work is not known.'),
  'lathe.nose': knowledge('It may be screwed on: from where a stop could unscrew it, it is not judged.'),
  ...under('lathe.nose.', { kind: known, locked: known }),
  'lathe.mass': knowledge(
    'The pull is not compared with the weight of the machine; a criterion that is a share of it is not judged.',
  ),
  'lathe.boltedDown': defaulted('It stands free on its floor.'),
  'lathe.carriage': knowledge('What swings beyond the reach of the bar may meet the tool post: not judged.'),
  ...under('lathe.carriage.profile[].', { behind: known, radius: known }),
  'lathe.carriage.parkedAt': defaulted('The carriage counts as at full depth.'),
  'lathe.saddleReach': description('Whether the carriage comes near enough is not known; it hurts nobody.'),
  ...under('lathe.saddleReach.', {
    gapIn: description('Whether the carriage comes near enough with the gap piece in is not known.'),
    gapOut: description('Whether it does with the gap piece out is not known.'),
  }),
  'lathe.tailstock': defaulted('A barrel of 80 mm comes up to the mouth of the bore when drilling.'),
  ...under('lathe.tailstock.', { barrel: known, reach: known }),
  'lathe.behindPlate': defaulted('25 mm are free behind the plate; what stands out further is not judged.'),
  ...under('lathe.behindPlate.', { depth: known, radius: defaulted('There is no guard round it.') }),

  'plate.name': label,
  'plate.surface': defaulted('It counts as turned.'),
  'plate.diameter': known,
  'plate.thickness': known,
  'plate.bore': known,
  'plate.mass': known,
  'plate.ratedSpeed': defaulted('The rim speed of a plain cast-iron plate limits it; a caution says so.'),
  ...under('plate.slots[].', {
    id: label,
    angle: known,
    from: known,
    to: known,
    width: known,
    kind: known,
    teeWidth: defaulted('The foot counts as 1.6 times as wide as the neck.'),
    lip: defaulted(
      'It counts as half as thick as the neck is wide; where that is too little, it is not judged.',
    ),
  }),
  ...under('plate.holes[].', {
    id: label,
    x: known,
    y: known,
    diameter: known,
    thread: plainHole,
  }),
  'plate.residual': defaulted(
    'The bare plate counts as balanced, with a standard doubt of its offset in the bound; a note says so.',
  ),
  ...under('plate.residual.', { amount: known, angle: known }),
  'plate.runOut': defaulted('The plate counts as true, within the doubt of its own unbalance.'),
  ...under('plate.runOut.', {
    face: defaulted('Its face counts as true.'),
    radial: defaulted('Its edge counts as true, within the doubt of its own unbalance.'),
  }),

  ...under('stock[].', {
    id: label,
    name: ownName,
    mass: known,
    count: label,
    height: known,
    hole: defaulted('It is bored to suit its stud: it is listed to be bored.'),
  }),
  ...under('stock[].footprint', footprint),

  clampingKit: description('Studs are listed as long as they are wanted, not by what the shop has.'),
  ...under('clampingKit.studs[].', {
    ...kit,
    'item.thread': label,
    'item.class': ownClass,
    'item.length': label,
  }),
  ...under('clampingKit.straps[].', kit),
  ...under('clampingKit.straps[].item.', stockStrap),
  ...under('clampingKit.heels[].', {
    ...kit,
    'item.kind': label,
    'item.size[]': label,
    'item.heights[]': label,
  }),
  'clampingKit.spanner': description('Pulls are said for a spanner of 300 mm, or of a foot in inches.'),

  'part.name': label,
  'part.material': known,
  'part.density': known,
  'part.surface': defaulted('It counts as turned.'),
  'part.weighedMass': defaulted('The mass worked out from the drawing counts, with its greater doubt.'),
  ...under('part.bodies[].', {
    id: label,
    name: ownName,
    effect: known,
    base: known,
    density: defaulted('It has the density of the part.'),
    thickness: known,
    across: defaulted('It is extruded along the spindle axis.'),
    'mesh.vertices[]': known,
    'mesh.triangles[]': known,
  }),
  ...under('part.bodies[].outline[].', ring),
  ...under('part.bodies[].holes[][].', ring),
  ...under('part.bores[].', {
    id: label,
    name: ownName,
    x: known,
    y: known,
    diameter: known,
    start: known,
    depth: defaulted('The bore goes through the whole part.'),
    tolerance: description('No tolerance is asked for.'),
    'tolerance.class': label,
    'tolerance.limits[]': label,
    skin: defaulted('It has no hard skin.'),
  }),
  'part.photograph': description('There is nothing to trace over.'),
  ...under('part.photograph.picture', picture),
  ...under('part.photograph.ties[].', { u: label, v: label, x: label, y: label }),
  'part.photograph.opacity': label,
  'part.photograph.locked': label,

  'setups[].id': label,
  'setups[].title': label,
  'setups[].centre.bore': known,
  ...under('setups[].centre', point),
  'setups[].turn': known,
  'setups[].seat': defaulted('The part stands on the plate.'),
  ...under('setups[].seat.', {
    on: known,
    standOff: defaulted("On a shelf or in a vee the part's back touches the plate's face."),
    diameter: knowledge('Which round of the part lies in the vee is not known; its joint is not judged.'),
  }),
  'setups[].packing': known,
  ...under('setups[].hardware[].', {
    id: label,
    name: ownName,
    kind: known,
    mass: defaulted('A clamp or sub-plate weighs what its sizes come to.'),
    facing: defaulted('Its length lies along its slot, else outward from the spindle axis.'),
    base: known,
    height: known,
    fixed: label,
    massCentre: defaulted('Its mass sits in the middle of its footprint at half its height.'),
    ...fastening,
    order: description('The program puts the tightening in an order.'),
    heel: clampUnknown,
    packing: defaulted('This clamp has no packing of its own under the part.'),
    boltFrom: defaulted('The bolt goes through the middle of the block.'),
    diameter: known,
    length: known,
    form: known,
    bore: known,
    thickness: known,
    density: defaulted('It counts as steel.'),
    raised: known,
    'webs.count': known,
    'webs.thickness': known,
    angle: known,
    opening: known,
    'foot.length': known,
    'foot.thickness': known,
    held: knowledge('What holds it to the plate is not known.'),
    press: clampUnknown,
  }),
  ...under('setups[].hardware[].at.', {
    slot: known,
    radius: known,
    hole: known,
    on: known,
    along: known,
    out: known,
    x: known,
    y: known,
  }),
  ...under('setups[].hardware[].footprint', footprint),
  ...under('setups[].hardware[].massCentre', { ...point, '.z': known }),
  ...under('setups[].hardware[].strap.', strap),
  ...under('setups[].hardware[].heel.', {
    kind: known,
    'size[]': known,
    height: clampUnknown,
    from: defaulted("The heel stands flush with the strap's tail."),
  }),
  'setups[].hardware[].packing.size[]': known,
  ...under('setups[].hardware[].stack[].', { stock: known, count: known }),
  ...under('setups[].hardware[].throughPart', point),
  'setups[].hardware[].size[]': known,
  ...under('setups[].hardware[].held[].', {
    at: defaulted('The bolt goes through its station.'),
    ...fastening,
  }),
  ...under('setups[].hardware[].held[].at', point),
  ...under('setups[].hardware[].slots[].', {
    id: label,
    x: known,
    y: known,
    angle: known,
    length: known,
    width: known,
  }),
  ...under('setups[].hardware[].holes[].', {
    id: label,
    x: known,
    y: known,
    diameter: known,
    thread: plainHole,
  }),
  ...under('setups[].hardware[].bolts[].', {
    at: defaulted('The bolt goes through its station.'),
    ...fastening,
    sunk: defaulted('Washer and nut stand on its face.'),
  }),
  ...under('setups[].hardware[].bolts[].at', point),
  ...under('setups[].hardware[].press.', {
    thread: clampUnknown,
    class: clampUnknown,
    torque: clampUnknown,
    boltToWork: clampUnknown,
    boltToHeel: clampUnknown,
    nose: clampUnknown,
  }),
  ...under('setups[].hardware[].press.nose', point),
  'setups[].cuts': knowledge('What is cut in this setup is not known, so no load of a cut is judged.'),
  ...under('setups[].cuts[].', {
    id: label,
    name: ownName,
    kind: known,
    bore: known,
    tool: known,
    speed: known,
    feed: known,
    depth: known,
    interrupted: known,
    diameter: known,
    start: known,
    from: known,
    to: known,
    z: defaulted('It follows from the part: all of it when turned outside, else one depth off its front.'),
    'z[]': known,
    skin: defaulted('It has no hard skin.'),
    bar: defaulted('A bar that goes in and reaches is taken.'),
    'bar.diameter': known,
    'bar.overhang': known,
    dial: description('Passes are said as depths and sizes, without settings of a dial.'),
    ...under('dial.', { on: label, division: label, unit: label }),
  }),
  'setups[].speed': defaulted('No speed is chosen: it is judged as standing still and turned by hand.'),
  ...under('setups[].criterion.', { kind: known, value: known }),
  'setups[].frictionCoefficient': defaulted('Friction follows from the table of surfaces.'),
  'setups[].frictionState': defaulted('The surfaces count as oiled.'),
  'setups[].sheet': byProgram,
  ...under('setups[].sheet.', {
    size: byProgram,
    scale: byProgram,
    projection: byProgram,
    dimensions: byProgram,
    'dimensions{}.hidden': description('The dimension is shown.'),
    'dimensions{}.offset': byProgram,
    'dimensions{}.place': byProgram,
    'dimensions{}.place.x': label,
    'dimensions{}.place.y': label,
  }),

  uncertainty: doubt,
  ...under('uncertainty.', {
    computedMass: doubt,
    weighedMass: doubt,
    centreOfMass: doubt,
    placing: doubt,
    nutFactor: doubt,
    preloadScatter: doubt,
    plateResidual: doubt,
  }),
  titleBlock: emptyBox,
  ...under('titleBlock.', { owner: emptyBox, by: emptyBox, approved: emptyBox, revision: emptyBox }),
  runs: description('Nothing was noted at the machine.'),
  ...under('runs[].', {
    id: label,
    date: label,
    setup: label,
    by: label,
    speed: description('No speed was noted.'),
    trimmed: label,
    remarks: label,
    photograph: description('No picture was taken.'),
    state: description('It was noted by hand, not gone through step by step.'),
    done: description('No step was ticked off.'),
    'done[]': label,
    readings: description('Nothing was read at the machine.'),
    'readings[]': label,
    sizes: description('Nothing was measured between passes.'),
    'sizes[].cut': label,
    'sizes[].pass': label,
    'sizes[].size': label,
  }),
  ...under('runs[].photograph', picture),
}
