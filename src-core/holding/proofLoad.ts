/** Whether a stud is tightened beyond its proof load. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called, finding } from '../findings/finding.ts'
import type { Point } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import type { FasteningFields } from '../mounting/fastening.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { nutFactorOf, preloadOf } from './preloadOf.ts'
import type { Ruling } from './ruling.ts'

/** Mean over proof load: stop; high side of the scatter over it: caution. */
export function proofRulings({ job }: Mounted, item: Hardware, fields: FasteningFields, at: Point): Ruling[] {
  const doubt = uncertaintiesOf(job)
  const { preload } = preloadOf(fields, doubt)
  if (!preload || preload.high <= preload.proof) return []
  const fmt = formatter(job.displayUnits)
  const { thread, mean, high, proof } = preload
  const torque = fields.torque ?? 0
  const fits = Math.floor(((torque * proof) / high) * 10) / 10
  const figures = `${fmt.torque(torque)} on ${thread.name} ${fields.stud.class} gives ${fmt.force(mean)}, up to ${fmt.force(high)} (nut factor ${plain(nutFactorOf(fields.lubricated, doubt), 2)}, ±${fmt.percent(doubt.preloadScatter)} scatter), against a proof load of ${fmt.force(proof)}`
  const cure = `Tighten it to ${fmt.torque(fits)} or less, or use a stronger stud`
  const [severity, says] =
    mean > proof
      ? (['stop', `The stud of ${called(item)} is tightened beyond its proof load.`] as const)
      : (['caution', `The stud of ${called(item)} may be stretched beyond its proof load.`] as const)
  return [
    {
      finding: finding(severity, 'over-proof-load', item.id, `${says} ${cure}; ${figures}.`, at),
      makes: null,
    },
  ]
}
