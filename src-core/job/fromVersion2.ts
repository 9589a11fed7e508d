/**
 * Lifts a document of version 2 to version 3. A setup cut one bore then, and named the drill that opens it beside:
 * those become two cuts. A lathe had a list of spindle speeds.
 */
import { isRecord, type Raw } from './versions.ts'

export function fromVersion2(document: Raw): Raw {
  const { lathe, setups } = document
  return {
    ...document,
    version: 3,
    ...(isRecord(lathe) ? { lathe: liftLathe(lathe) } : {}),
    ...(Array.isArray(setups) ? { setups: setups.map((s) => (isRecord(s) ? liftSetup(s) : s)) } : {}),
  }
}

/** A lathe of version 2, in a job or in a library. */
export function liftLathe({ spindleSpeeds, ...lathe }: Raw): Raw {
  if (!Array.isArray(spindleSpeeds)) return { ...lathe, speeds: spindleSpeeds }
  return { ...lathe, speeds: { steps: spindleSpeeds.map((rpm: unknown) => ({ rpm })), stepless: null } }
}

function liftSetup(setup: Raw): Raw {
  if (!('cut' in setup)) return setup
  const { cut, ...rest } = setup
  return { ...rest, cuts: isRecord(cut) ? liftCut(cut) : cut }
}

function liftCut({ drill, depth, ...cut }: Raw): Raw[] {
  const common = { ...cut, interrupted: false }
  const boring = { ...common, kind: 'bore', depth }
  if (drill === undefined || drill === null) return [{ ...boring, id: 'cut1' }]
  return [
    { ...common, kind: 'drill', diameter: drill, id: 'cut1' },
    { ...boring, id: 'cut2' },
  ]
}
