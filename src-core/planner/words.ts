/** A plan's fasteners in words. */
import type { Formatter } from '../units/format.ts'
import type { PlanStation } from './report.ts'

/** "stud M12 8.8, 110 mm, to find; 2 nuts, 1 washer; 88 N·m", with what has to be looked after. */
export function fastenerText(fmt: Formatter, { fasteners: f }: Pick<PlanStation, 'fasteners'>): string {
  const from = f.stud === null ? 'to find' : `${f.stud} of the kit`
  const nuts = `${f.nuts} nut${f.nuts === 1 ? '' : 's'}, ${f.washers} washer${f.washers === 1 ? '' : 's'}`
  const parts = [
    `stud ${f.thread} ${f.class}, ${fmt.length(f.length_mm)}, ${from}`,
    nuts,
    `${fmt.mass(f.mass_kg)} together`,
    fmt.torque(f.torque_N_m),
  ]
  if (!f.class_given) parts.push('class not given, counted as the weakest')
  if (f.bore.length > 0)
    parts.push(`bolt hole of ${f.bore.join(', ')} not given: see that ${f.thread} goes through`)
  return parts.join('; ')
}
