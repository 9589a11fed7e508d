/**
 * Where in the window each field of a job is edited: a file of src-renderer that names the field's key, or, after
 * `none:`, the reason why there is no such place.
 */
import type { FieldPath } from '../../src-core/job/fieldPaths.ts'

/** The same file for several fields of a group. */
const all = <P extends string, K extends string>(group: P, file: string, ...keys: readonly K[]) =>
  Object.fromEntries(keys.map((key) => [`${group}${key}`, file])) as { [Path in K as `${P}${Path}`]: string }

const id = 'none: given by the program, and what other fields refer to'
const picture = 'none: read from the picture file'
const outline = 'none: an outline as footprint comes with a file; the window offers round and rectangle'
const file = 'none: the form of the file itself'
/** The two figures of a place, wherever one is edited. */
const point = 'components/PointFields.svelte'
const edge = 'editor/draw/gripDrag.ts'
const footprintFields = 'components/FootprintFields.svelte'
const machine = 'panels/steps/MachineStep.svelte'
const noseFields = 'panels/steps/NoseFields.svelte'
const room = 'panels/steps/RoomFields.svelte'
const plate = 'panels/steps/PlateFields.svelte'
const plateSlots = 'panels/steps/PlateSlots.svelte'
const plateHoles = 'panels/steps/PlateHoles.svelte'
const stock = 'panels/steps/StockList.svelte'
const part = 'panels/steps/PartStep.svelte'
const body = 'panels/steps/BodyList.svelte'
const bore = 'panels/steps/BoreList.svelte'
const mounting = 'panels/steps/MountingStep.svelte'
const piece = 'panels/steps/HardwareFields.svelte'
const box = 'panels/steps/BoxFields.svelte'
const press = 'panels/steps/PressFields.svelte'
const station = 'panels/steps/StationFields.svelte'
const fastening = 'panels/steps/FasteningFields.svelte'
const strap = 'panels/steps/StrapFields.svelte'
const clamp = 'panels/steps/ClampFields.svelte'
const boltList = 'panels/steps/BoltList.svelte'
const fixture = 'panels/steps/FixtureFields.svelte'
const seat = 'panels/steps/SeatFields.svelte'
const holeList = 'panels/steps/HoleList.svelte'
const anglePlate = 'panels/steps/AnglePlateFields.svelte'
const vee = 'panels/steps/VeeFields.svelte'
const twin = 'panels/steps/TwinFields.svelte'
const FASTENING = [
  ...(['stud.thread', 'stud.class', 'stud.length', 'torque', 'lubricated'] as const),
  ...(['nut', 'nut.acrossFlats', 'nut.height', 'washer', 'washer.diameter', 'washer.thickness'] as const),
] as const
const stop = 'panels/steps/StopFields.svelte'
const dowel = 'panels/steps/DowelFields.svelte'
const kit = 'panels/steps/KitList.svelte'
const cut = 'panels/steps/CutFields.svelte'
const speed = 'panels/steps/SpeedStep.svelte'
const sheet = 'panels/steps/SheetStep.svelte'
const moved = 'editor/edits/sheet.ts'
const run = 'panels/dialogs/RunDialog.svelte'

export const WINDOW_FIELDS: Readonly<Record<FieldPath, string>> = {
  format: file,
  version: file,
  ...all('', sheet, 'title', 'partNumber', 'documentNumber', 'notes', 'displayUnits', 'titleBlock'),
  ...all('lathe.', machine, 'name', 'swingOverBed', 'swingOverCrossSlide'),
  ...all('lathe.speeds.', 'panels/steps/SpeedsFields.svelte', 'steps[].rpm', 'steps[].backGear', 'stepless'),
  'lathe.speeds.stepless[]': 'panels/steps/SpeedsFields.svelte',
  ...all('lathe.', machine, 'maxSpindleSpeed', 'noseOverhang', 'loadLimit', 'barReach'),
  ...all('lathe.', machine, 'startTime', 'brakeTime'),
  ...all('lathe.', noseFields, 'nose', 'nose.kind', 'nose.locked', 'mass', 'boltedDown'),
  ...all('lathe.carriage.', room, 'profile[].behind', 'profile[].radius', 'parkedAt'),
  ...all('lathe.', room, 'carriage', 'saddleReach', 'saddleReach.gapIn', 'saddleReach.gapOut'),
  ...all('lathe.', room, 'tailstock', 'tailstock.barrel', 'tailstock.reach'),
  ...all('lathe.', room, 'behindPlate', 'behindPlate.depth', 'behindPlate.radius'),
  ...all('lathe.', machine, 'gap', 'gap.swing', 'gap.width', 'gap.open'),
  ...all('plate.', plate, 'name', 'diameter', 'thickness', 'bore', 'mass', 'ratedSpeed'),
  ...all('plate.', plate, 'residual', 'residual.amount', 'residual.angle'),
  ...all('plate.', plate, 'runOut', 'runOut.face', 'runOut.radial'),
  'plate.slots[].id': id,
  ...all('plate.', plate, 'surface'),
  ...all('plate.slots[].', plateSlots, 'angle', 'from', 'to', 'width', 'kind', 'teeWidth', 'lip'),
  'plate.holes[].id': id,
  ...all('plate.holes[].', point, 'x', 'y'),
  ...all('plate.holes[].', plateHoles, 'diameter', 'thread'),
  'stock[].id': id,
  ...all('stock[].', stock, 'name', 'mass', 'count', 'height'),
  'stock[].hole': stock,
  clampingKit: kit,
  'clampingKit.spanner': kit,
  ...all('clampingKit.', id, 'studs[].id', 'straps[].id', 'heels[].id'),
  ...all('clampingKit.studs[].', kit, 'name', 'count', 'item.thread', 'item.class', 'item.length'),
  ...all('clampingKit.straps[].', kit, 'name', 'count'),
  ...all(
    'clampingKit.straps[].item.',
    strap,
    'length',
    'width',
    'thickness',
    'boltFrom',
    'opening',
    'slotted',
    'steel',
  ),
  ...all('clampingKit.heels[].', kit, 'name', 'count', 'item.kind', 'item.size[]', 'item.heights[]'),
  ...all('stock[].footprint.', footprintFields, 'circle', 'rect[]'),
  ...all('stock[].footprint.outline[].', outline, 'x', 'y', 'bulge'),
  ...all('part.', part, 'name', 'material', 'density', 'weighedMass'),
  'part.surface': part,
  'part.bodies[].id': id,
  ...all('part.bodies[].', body, 'name', 'effect', 'base', 'density', 'thickness', 'across'),
  ...all('part.bodies[].outline[].', point, 'x', 'y'),
  'part.bodies[].outline[].bulge': edge,
  ...all('part.bodies[].holes[][].', point, 'x', 'y'),
  'part.bodies[].holes[][].bulge': edge,
  ...all('part.bodies[].mesh.', 'none: a mesh is imported whole', 'vertices[]', 'triangles[]'),
  'part.bores[].id': id,
  ...all('part.bores[].', point, 'x', 'y'),
  ...all('part.bores[].', bore, 'name', 'diameter', 'start', 'depth'),
  ...all('part.bores[].', bore, 'tolerance', 'tolerance.class', 'tolerance.limits[]', 'skin'),
  'part.photograph': 'editor/edits/photograph.ts',
  ...all('part.photograph.picture.', picture, 'name', 'type', 'width', 'height', 'data'),
  ...all('part.photograph.ties[].', 'panels/dialogs/PhotographDialog.svelte', 'u', 'v'),
  ...all('part.photograph.ties[].', 'editor/draw/photographTool.ts', 'x', 'y'),
  ...all('part.photograph.', 'panels/photograph/PhotographPanel.svelte', 'opacity', 'locked'),
  'setups[].id': id,
  ...all('setups[].', mounting, 'title', 'turn', 'packing'),
  'setups[].seat': seat,
  ...all('setups[].seat.', seat, 'on', 'standOff', 'diameter'),
  ...all('setups[].centre.', mounting, 'bore', 'x', 'y'),
  'setups[].hardware[].id': id,
  ...all('setups[].hardware[].', piece, 'name', 'kind', 'fixed'),
  ...all('setups[].hardware[].', box, 'mass', 'base', 'height', 'facing'),
  ...all('setups[].hardware[].at.', station, 'slot', 'radius', 'hole', 'on', 'along', 'out'),
  ...all('setups[].hardware[].at.', point, 'x', 'y'),
  ...all('setups[].hardware[].', fixture, 'form', 'bore', 'thickness'),
  'setups[].hardware[].density': 'panels/steps/OwnMassFields.svelte',
  'setups[].hardware[].raised': twin,
  ...all('setups[].hardware[].', anglePlate, 'webs.count', 'webs.thickness'),
  'setups[].hardware[].slots[].id': id,
  ...all('setups[].hardware[].slots[].', anglePlate, 'x', 'y', 'angle', 'length', 'width'),
  ...all('setups[].hardware[].', vee, 'angle', 'opening', 'foot.length', 'foot.thickness'),
  'setups[].hardware[].holes[].id': id,
  ...all('setups[].hardware[].holes[].', point, 'x', 'y'),
  ...all('setups[].hardware[].holes[].', holeList, 'diameter', 'thread'),
  'setups[].hardware[].bolts[].sunk': fixture,
  ...all('setups[].hardware[].bolts[].', boltList, 'at', 'at.x', 'at.y'),
  ...all('setups[].hardware[].bolts[].', fastening, ...FASTENING),
  ...all(
    'setups[].hardware[].strap.',
    strap,
    'length',
    'width',
    'thickness',
    'boltFrom',
    'opening',
    'slotted',
    'steel',
  ),
  ...all(
    'setups[].hardware[].',
    clamp,
    'heel',
    'heel.kind',
    'heel.size[]',
    'heel.height',
    'heel.from',
    'packing',
    'packing.size[]',
    'order',
  ),
  ...all(
    'setups[].hardware[].',
    fastening,
    'stud.thread',
    'stud.class',
    'stud.length',
    'torque',
    'lubricated',
  ),
  ...all(
    'setups[].hardware[].',
    fastening,
    'nut',
    'nut.acrossFlats',
    'nut.height',
    'washer',
    'washer.diameter',
    'washer.thickness',
  ),
  ...all('setups[].hardware[].', 'panels/steps/WeightFields.svelte', 'stack[].stock', 'stack[].count'),
  ...all('setups[].hardware[].', point, 'throughPart.x', 'throughPart.y'),
  ...all('setups[].hardware[].', stop, 'boltFrom', 'size[]'),
  ...all('setups[].hardware[].', dowel, 'diameter', 'length'),
  'setups[].hardware[].held': box,
  ...all('setups[].hardware[].held[].', boltList, 'at', 'at.x', 'at.y'),
  ...all(
    'setups[].hardware[].held[].',
    fastening,
    'stud.thread',
    'stud.class',
    'stud.length',
    'torque',
    'lubricated',
  ),
  ...all(
    'setups[].hardware[].held[].',
    fastening,
    'nut',
    'nut.acrossFlats',
    'nut.height',
    'washer',
    'washer.diameter',
    'washer.thickness',
  ),
  ...all('setups[].hardware[].footprint.', footprintFields, 'circle', 'rect[]'),
  ...all('setups[].hardware[].footprint.outline[].', outline, 'x', 'y', 'bulge'),
  ...all(
    'setups[].hardware[].massCentre',
    'none: comes with the planner’s stacks and the library; nobody types it',
    '',
    '.x',
    '.y',
    '.z',
  ),
  ...all('setups[].hardware[].press', press, '', '.thread', '.class', '.torque', '.boltToWork'),
  ...all('setups[].hardware[].press.', press, 'boltToHeel', 'nose', 'nose.x', 'nose.y'),
  'setups[].cuts': 'panels/steps/CutList.svelte',
  'setups[].cuts[].id': id,
  'setups[].cuts[].kind': 'panels/steps/CutList.svelte',
  ...all('setups[].cuts[].', cut, 'name', 'bore', 'tool', 'speed', 'feed', 'depth', 'interrupted'),
  ...all('setups[].cuts[].', cut, 'z', 'z[]', 'skin', 'bar', 'bar.diameter', 'bar.overhang'),
  'setups[].cuts[].dial': cut,
  ...all('setups[].cuts[].dial.', 'components/DialFields.svelte', 'on', 'division', 'unit'),
  ...all('setups[].cuts[].', 'panels/steps/CutSizes.svelte', 'diameter', 'start', 'from', 'to'),
  ...all('setups[].', speed, 'speed', 'criterion.kind', 'criterion.value'),
  'setups[].frictionCoefficient': 'panels/steps/ClampsStep.svelte',
  'setups[].frictionState': 'panels/steps/ClampsStep.svelte',
  ...all('setups[].sheet', sheet, '', '.size', '.scale', '.projection'),
  ...all('setups[].sheet.', moved, 'dimensions', 'dimensions{}.hidden', 'dimensions{}.offset'),
  'setups[].sheet.dimensions{}.place': moved,
  ...all('setups[].sheet.dimensions{}.place.', 'panels/sheet/dimensionLines.ts', 'x', 'y'),
  ...all('uncertainty', speed, '', '.computedMass', '.weighedMass', '.centreOfMass'),
  ...all('uncertainty.', speed, 'placing', 'nutFactor', 'preloadScatter', 'plateResidual'),
  revisions: 'editor/edits/revisions.ts',
  ...all('revisions[].', 'panels/steps/RevisionList.svelte', 'mark', 'date', 'text'),
  ...all('titleBlock.', sheet, 'owner', 'by', 'approved', 'revision'),
  runs: 'editor/edits/runs.ts',
  'runs[].id': id,
  ...all('runs[].', run, 'date', 'setup', 'by', 'speed', 'trimmed', 'remarks', 'photograph'),
  ...all('runs[].', 'state/atLathe.svelte.ts', 'state', 'done', 'done[]', 'readings', 'readings[]', 'sizes'),
  ...all('runs[].sizes[].', 'state/atLathe.svelte.ts', 'cut', 'pass', 'size'),
  ...all('runs[].photograph.', picture, 'name', 'type', 'width', 'height', 'data'),
}
