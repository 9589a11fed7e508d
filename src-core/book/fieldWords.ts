/** How the fields of a job are called and in what they are given, for lists of changes. */
import { significant, type Formatter } from '../units/format.ts'

type Kind = 'length' | 'mass' | 'speed' | 'angle' | 'force' | 'torque' | 'unbalance' | 'share' | 'plain'

const density = 'plain'

/** By the field's own name, wherever it stands. */
const FIELDS: Readonly<Record<string, readonly [string, Kind?]>> = {
  title: ['title'],
  partNumber: ['part number'],
  documentNumber: ['document number'],
  revisions: ['revisions'],
  mark: ['mark'],
  text: ['what changed'],
  notes: ['notes'],
  displayUnits: ['units shown'],
  name: ['name'],
  swingOverBed: ['swing over the bed', 'length'],
  swingOverCrossSlide: ['swing over the cross-slide', 'length'],
  gap: ['gap'],
  swing: ['swing in the gap', 'length'],
  open: ['gap open'],
  speeds: ['spindle speeds'],
  steps: ['steps of speed'],
  rpm: ['speed', 'speed'],
  backGear: ['in back gear'],
  stepless: ['range without steps'],
  maxSpindleSpeed: ['highest spindle speed', 'speed'],
  noseOverhang: ['overhang from the front bearing', 'length'],
  loadLimit: ['load limit of the nose', 'mass'],
  barReach: ['reach of the bar', 'length'],
  diameter: ['diameter', 'length'],
  thickness: ['thickness', 'length'],
  bore: ['bore', 'length'],
  mass: ['mass', 'mass'],
  ratedSpeed: ['rated speed', 'speed'],
  angle: ['angle', 'angle'],
  from: ['inner end', 'length'],
  to: ['outer end', 'length'],
  width: ['width', 'length'],
  residual: ['residual unbalance of the bare plate'],
  amount: ['amount', 'unbalance'],
  count: ['count'],
  footprint: ['footprint'],
  circle: ['diameter', 'length'],
  rect: ['length and width'],
  height: ['height', 'length'],
  material: ['material'],
  density: ['density', density],
  weighedMass: ['weighed mass', 'mass'],
  effect: ['effect'],
  base: ['base', 'length'],
  depth: ['depth', 'length'],
  start: ['starting diameter', 'length'],
  centre: ['point on the axis'],
  turn: ['turn', 'angle'],
  seat: ['what the part stands on'],
  packing: ['packing', 'length'],
  form: ['form'],
  sunk: ['sunk below its face', 'length'],
  bolts: ['bolts'],
  raised: ['height of its seat', 'length'],
  facing: ['facing', 'angle'],
  fixed: ['fixed'],
  kind: ['kind'],
  at: ['place'],
  radius: ['radius', 'length'],
  slot: ['slot'],
  hole: ['hole'],
  massCentre: ['centre of its mass'],
  press: ['clamp'],
  strap: ['strap'],
  boltFrom: ['bolt from its end', 'length'],
  opening: ['width of its hole', 'length'],
  slotted: ['length of its slot', 'length'],
  steel: ['steel'],
  stud: ['stud'],
  nut: ['nut'],
  acrossFlats: ['across flats', 'length'],
  washer: ['washer'],
  lubricated: ['threads oiled'],
  heel: ['heel'],
  order: ['place in the order of tightening'],
  stack: ['stack'],
  along: ['place along', 'length'],
  out: ['place out from the plate', 'length'],
  across: ['direction across', 'angle'],
  standOff: ["plate to the part's back", 'length'],
  webs: ['webs'],
  foot: ['foot'],
  throughPart: ['place in the part'],
  held: ['bolts'],
  length: ['length', 'length'],
  item: ['piece'],
  heights: ['heights'],
  clampingKit: ['clamping kit'],
  spanner: ['length of the spanner', 'length'],
  studs: ['studs'],
  straps: ['straps'],
  heels: ['heels'],
  teeWidth: ['width of the tee', 'length'],
  lip: ['thickness of the lip', 'length'],
  surface: ['surface'],
  boltedDown: ['bolted down'],
  carriage: ['carriage'],
  profile: ['profile of the carriage'],
  behind: ['behind the tip', 'length'],
  parkedAt: ['where the tool is parked', 'length'],
  saddleReach: ['how near the carriage comes'],
  gapIn: ['nearest with the gap piece in', 'length'],
  gapOut: ['nearest with the gap piece out', 'length'],
  tailstock: ['tailstock'],
  barrel: ['barrel of the tailstock', 'length'],
  reach: ['behind the drill’s point', 'length'],
  behindPlate: ['room behind the plate'],
  runOut: ['run-out'],
  face: ['run-out of the face', 'length'],
  radial: ['run-out of the edge', 'length'],
  startTime: ['seconds to start'],
  brakeTime: ['seconds to stop'],
  thread: ['thread'],
  class: ['strength class'],
  torque: ['torque', 'torque'],
  boltToWork: ['bolt to work', 'length'],
  boltToHeel: ['bolt to heel', 'length'],
  nose: ['nose'],
  cuts: ['cuts'],
  interrupted: ['interrupted'],
  skin: ['hard skin', 'length'],
  bar: ['boring bar'],
  overhang: ['overhang', 'length'],
  dial: ['dial of the cross-slide'],
  division: ['division of the dial in mm', 'plain'],
  tolerance: ['tolerance'],
  limits: ['limits of size'],
  tool: ['tool'],
  feed: ['feed'],
  drill: ['drill', 'length'],
  speed: ['speed', 'speed'],
  criterion: ['criterion'],
  value: ['value'],
  frictionCoefficient: ['friction'],
  frictionState: ['oiled or dry'],
  uncertainty: ['doubts'],
  computedMass: ['doubt of computed masses', 'share'],
  centreOfMass: ['doubt of the centre of mass', 'length'],
  placing: ['doubt of placing', 'length'],
  nutFactor: ['nut factor'],
  preloadScatter: ['scatter of the preload', 'share'],
  plateResidual: ['doubt of the bare plate', 'length'],
  titleBlock: ['title block'],
  owner: ['owner'],
  by: ['by'],
  approved: ['approved by'],
  revision: ['revision'],
  sheet: ['sheet'],
  size: ['size'],
  scale: ['scale'],
  projection: ['projection'],
  dimensions: ['dimensions set by hand'],
  hidden: ['hidden'],
  offset: ['moved to'],
  date: ['date'],
  setup: ['setup'],
  trimmed: ['trimmed'],
  state: ['how it ended'],
  done: ['steps done'],
  readings: ['trim readings'],
  sizes: ['measured sizes'],
  cut: ['cut'],
  pass: ['pass', 'plain'],
  remarks: ['remarks'],
  photograph: ['photograph'],
  picture: ['picture'],
  type: ['kind of file'],
  data: ['content of the file'],
  opacity: ['opacity', 'share'],
  locked: ['locked'],
  ties: ['ties'],
  slots: ['slots'],
  holes: ['holes'],
  stock: ['stock'],
  bodies: ['bodies'],
  outline: ['outline'],
  mesh: ['mesh'],
  vertices: ['vertices'],
  triangles: ['triangles'],
  bores: ['bores'],
  setups: ['setups'],
  hardware: ['hardware'],
  runs: ['runs'],
  place: ['place of its text'],
  x: ['x', 'length'],
  y: ['y', 'length'],
  z: ['z', 'length'],
}

/** Same names that mean something else where they stand. */
const ELSEWHERE: readonly [RegExp, readonly [string, Kind?]][] = [
  [/\.cuts\[[^\]]*\]\.speed$/, ['cutting speed', 'plain']],
  [/\.cuts\[[^\]]*\]\.depth$/, ['depth of cut', 'length']],
  [/\.cuts\[[^\]]*\]\.from$/, ['radius where it begins', 'length']],
  [/\.cuts\[[^\]]*\]\.to$/, ['radius where it ends', 'length']],
  [/\.cuts\[[^\]]*\]\.z$/, ['heights']],
  [/\.(?:cuts\[[^\]]*\]|centre)\.bore$/, ['bore', 'plain']],
  [/\.tolerance\.class$/, ['tolerance class']],
  [/^setups\[[^\]]*\]\.speed$/, ['chosen speed', 'speed']],
  [/^uncertainty\.weighedMass$/, ['doubt of the weighed mass', 'share']],
  [/\.stack\[[^\]]*\]\.stock$/, ['stock', 'plain']],
  [/^stock\[[^\]]*\]\.hole$/, ['bolt hole', 'length']],
  [/\.heel\.from$/, ['bolt to heel', 'length']],
  [/\.seat\.on$/, ['what the part stands on', 'plain']],
  [/\.dial\.on$/, ['what the dial reads']],
  [/\.dial\.unit$/, ['figures of the dial']],
  [/\.packing\.size$/, ['length and width']],
  [/^lathe\.gap\.width$/, ['width of the gap', 'length']],
]

const keyOf = (path: string): string => /([A-Za-z]+)(?:\[[^\]]*\])?$/.exec(path)?.[1] ?? path
const namedField = (path: string) =>
  ELSEWHERE.find(([pattern]) => pattern.test(path))?.[1] ?? FIELDS[keyOf(path)]
const fieldOf = (path: string): readonly [string, Kind?] => namedField(path) ?? [keyOf(path)]

/** Whether a field has words of its own; one that has none is called by its key. */
export const hasWords = (path: string): boolean => namedField(path) !== undefined

export const fieldName = (path: string): string => fieldOf(path)[0]

const LONGEST = 60

/** A leaf's value in words; a length in the job's units, a text in quotes and cut where it is long. */
export function valueWords(path: string, value: unknown, format: Formatter): string {
  if (value === null || value === undefined) return 'none'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string')
    return value === '' ? 'nothing' : `“${value.length > LONGEST ? `${value.slice(0, LONGEST)}…` : value}”`
  if (typeof value === 'number') return numberWords(fieldOf(path)[1] ?? 'plain', value, format)
  if (Array.isArray(value) && value.every((v) => typeof v === 'number') && value.length <= 24)
    return value.map((v) => significant(v, 6)).join(', ')
  return 'other content'
}

function numberWords(kind: Kind, value: number, format: Formatter): string {
  switch (kind) {
    case 'length':
      return format.length(value)
    case 'mass':
      return format.mass(value)
    case 'speed':
      return format.speed(value)
    case 'angle':
      return format.angle(value)
    case 'force':
      return format.force(value)
    case 'torque':
      return format.torque(value)
    case 'unbalance':
      return format.unbalance(value)
    case 'share':
      return format.percent(value)
    default:
      return significant(value, 6)
  }
}
