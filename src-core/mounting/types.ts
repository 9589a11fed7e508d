/** A setup resolved into the plate frame: what is where, before anything is weighed or judged. mm, degrees. */
import type { Point, Point3, Region, Ring } from '../geometry/types.ts'
import type { Pose } from '../geometry/space/pose.ts'
import type { Thread } from '../hardware/threads.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import type { AnglePlate, Body, Bore, Hardware, Job, Setup, Shelf, Vee } from '../job/schema.ts'
import type { Rest } from './rest.ts'

/** Turn counter-clockwise by `turn` degrees, then move by (x, y): part frame to plate frame. */
export interface Placement {
  readonly turn: number
  readonly x: number
  readonly y: number
}

/** A body, or a layer of it, as it stands upright in the part's frame, heights over the part's seat; an object of its own as long as its body is one. */
export interface BodyShape {
  readonly regions: readonly Region[]
  readonly z0: number
  readonly z1: number
}

/** What stands upright of a body; of one that lies across there may be several. */
export interface MountedBody {
  readonly body: Body
  readonly shape: BodyShape
  /** In the plate frame; for a mesh its silhouette, which may be several regions. */
  readonly regions: readonly Region[]
  /** z of back and front above the plate's face. */
  readonly z0: number
  readonly z1: number
}

export interface Bolt {
  readonly at: Point
  readonly diameter: number
}

/** What a solid of a piece is. */
export type SolidRole =
  'strap' | 'heel' | 'stud' | 'nut' | 'washer' | 'packing' | 'weight' | 'block' | 'dowel' | 'fixture' | 'twin'

/** Where a solid that does not stand upright is, exactly: an outline in a pose's plane, between two heights along its normal. */
export interface Lying {
  readonly pose: Pose
  readonly ring: Ring
  readonly holes?: readonly Ring[]
  readonly z0: number
  readonly z1: number
}

/** A body of a piece of hardware: an outline between two heights, upright unless it `lies`. */
export interface MountedSolid {
  readonly role: SolidRole
  /** Of one that lies: of the upright box about it, as its heights are. */
  readonly ring: Ring
  /** Left out: none. */
  readonly holes?: readonly Ring[]
  readonly z0: number
  readonly z1: number
  /** kg */
  readonly mass: number
  readonly massCentre: Point3
  readonly lies?: Lying
  /** Exact, plate frame; left out: those of a uniform plate of its outline. */
  readonly moments?: MassMoments
}

/** A stud with washer and nut, drawn tight over what it holds. mm. */
export interface MountedFastening {
  /** Null where the thread is not given or not in the table. */
  readonly thread: Thread | null
  readonly at: Point
  /** z of the face that the washer presses on. */
  readonly grip: number
  readonly washer: { readonly diameter: number; readonly thickness: number }
  readonly nut: { readonly flats: number; readonly height: number }
  /** How long a stud the joint wants, with two pitches beyond its nut. */
  readonly needed: number
  /** Null where no length is given. */
  readonly length: number | null
  /** z of the stud's end in front, and of its end behind the plate's face. */
  readonly front: number
  readonly back: number
}

/** The end of a clamp's strap. */
export interface MountedToe {
  /** Where it presses, in the middle of its pad. */
  readonly at: Point
  readonly pad: Ring
  /** What of the part it meets; null where it hangs in the air. */
  readonly rest: Rest | null
  /** mm from bolt to the strap's end and to the heel's middle; null without a heel. */
  readonly toWork: number
  readonly toHeel: number | null
  /** z of the face that the clamp stands on. */
  readonly ground: number
  /** Height of the heel from there; null where it is not given. */
  readonly heel: number | null
  /** Degrees by which the strap rises toward its heel. */
  readonly tilt: number
}

export interface MountedPiece {
  readonly item: Hardware
  /** Id of the angle plate or vee that it stands on; its places are then those in the plate's frame all the same. */
  readonly shelf?: string
  /** The station: the slot's radius or the hole or point that `at` names. */
  readonly at: Point
  /** Direction of its length, degrees. */
  readonly facing: number
  /** Of its largest solid: what is drawn and dragged for the whole. */
  readonly footprint: Ring
  /** Heights of that solid. */
  readonly z0: number
  readonly z1: number
  /** kg, all solids. */
  readonly mass: number
  readonly massCentre: Point3
  /** Null for what is not bolted to the plate. */
  readonly bolt: Bolt | null
  readonly solids: readonly MountedSolid[]
  readonly fastenings: readonly MountedFastening[]
  /** Of a clamp. */
  readonly toe: MountedToe | null
}

export interface MountedBore {
  readonly bore: Bore
  readonly centre: Point
  /** z range that cutting it takes away. */
  readonly z0: number
  readonly z1: number
  /** 'open': taken to size in an earlier setup. 'to cut': in this one. 'uncut': left for later. */
  readonly state: 'open' | 'to cut' | 'uncut'
  /** Goes through the lowest body it meets. */
  readonly through: boolean
}

/** A round in a vee, mm, or why there is none. */
export type VeeRound =
  | {
      readonly lies: true
      readonly diameter: number
      /** Of its middle, along the vee's lands from their middle; and of its crown over them. */
      readonly along: number
      readonly crown: number
      /** From the plate's face: the ends of the round, and those between which it touches both flanks. */
      readonly length: readonly [number, number]
      readonly out: readonly [number, number]
    }
  | { readonly lies: false; readonly why: 'not given' | 'not drawn' | 'bare' }
  /** The largest that the vee takes; how far the crown stands over the lands, which is below 0. */
  | { readonly lies: false; readonly why: 'too large'; readonly most: number }
  | { readonly lies: false; readonly why: 'too small'; readonly crown: number }
  /** Beside the middle, and off the flanks where above 0. */
  | { readonly lies: false; readonly why: 'off'; readonly beside: number; readonly off: number }

export interface Mounted {
  /** Id of the twin that is looked at as if it were the part; left out: the part itself. */
  readonly twin?: string
  /** The shelf that is looked at as if it were the plate; left out: the plate itself. All else is then in its frame. */
  readonly shelf?: {
    readonly item: Shelf
    /** The angle plate that it lies on as a loose block; null: it is bolted to the plate. */
    readonly under: AnglePlate | null
    /** The block on it that the part lies in; null: none. */
    readonly block: Vee | null
    /** Its frame in the plate's. */
    readonly pose: Pose
    /** Whether the part is seated on it. */
    readonly carriesPart: boolean
    /** Of the part's origin over it, mm. */
    readonly height: number
    /** Where the spindle axis runs: along the shelf from its middle, and over it; below 0 where it runs behind it. mm */
    readonly axis: { readonly along: number; readonly height: number }
    /** Of a vee that the part is seated in: the diameter that is given. */
    readonly diameter: number | null
    /** The round that lies in it, or in a block on it; heights and places in this frame. */
    readonly round: VeeRound | null
    /** Bodies that lie at a slant to it, and so are not seen from it. */
    readonly slanted: readonly string[]
    /** mm over the shelf of the lowest of the part, where bodies lie at a slant; null where none does. */
    readonly slantedLow: number | null
  }
  /** Every shelf that carries something, looked at so; the part's own first. Left out: none. */
  readonly shelves?: readonly Mounted[]
  readonly job: Job
  readonly setup: Setup
  readonly placement: Placement
  /** z of the face that the part or its packing stands on, and of the part's seat. */
  readonly ground: number
  readonly seat: number
  readonly bodies: readonly MountedBody[]
  /** What earlier setups turned away: no material any more, though the part is drawn with it. */
  readonly turned: readonly MountedBody[]
  readonly bores: readonly MountedBore[]
  readonly pieces: readonly MountedPiece[]
  /** The bore on the axis or being cut, if any: the first that is cut, else the centred one. */
  readonly workBore: MountedBore | null
  /** Front of the part, z. */
  readonly partFront: number
}
