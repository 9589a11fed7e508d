// Invented jobs for the pictures of the job book.
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

const example = async (name) => JSON.parse(await readFile(`examples/${name}.evenswing`, 'utf8'))

export async function fillBook(folder) {
  const put = (name, job) => writeFile(join(folder, `${name}.evenswing`), JSON.stringify(job))
  const link = await example('flat-link')
  await put('crank-link', {
    ...link,
    runs: [
      {
        id: 'run1',
        date: '2026-09-14',
        setup: 'op10',
        by: 'Kim',
        speed: 110,
        trimmed: 'w1 out by 3 mm, then it stayed where it was left',
        remarks: 'Ran quiet. Clamp c3 wants a thicker washer.',
      },
    ],
  })
  const arm = await example('flat-link')
  arm.title = 'Rocker arm, long'
  arm.partNumber = 'EV-0520'
  arm.setups[0].hardware[0].at.radius = 92
  arm.setups[0].packing = 16
  arm.setups[0].speed = 70
  await put('rocker-arm', arm)
  await put('bearing-bracket', await example('bearing-bracket'))
}
