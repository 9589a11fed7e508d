// `npm run bench`: times and ratios measured in one run, and actions counted; nothing is asserted.
import { actionsBench } from './actions.bench.ts'
import { bookBench } from './book.bench.ts'
import { coreBench } from './core.ts'
import { plannerBench } from './planner.bench.ts'
import { sheetBench } from './sheets.bench.ts'
import { windowBench } from './window.bench.ts'

const rows = [
  ...(await coreBench()),
  ...(await sheetBench()),
  ...(await plannerBench()),
  ...(await bookBench()),
  ...(await windowBench()),
]
const width = Math.max(...rows.map((r) => r.name.length))
for (const { name, ms, ratio } of rows)
  console.log(
    `${name.padEnd(width)}  ${ms.toFixed(ms < 10 ? 3 : 1).padStart(9)} ms  ${ratio ?? ''}`.trimEnd(),
  )
for (const line of await actionsBench()) console.log(line)
