/** `hardware`: the catalogue's usual sizes, with what each weighs. */
import { CATALOGUE, usualSizes } from '../../../src-core/hardware/catalogue.ts'
import { massOf, nameOf, shapeOf, usualChoice } from '../../../src-core/hardware/choice.ts'
import { findMaterial } from '../../../src-core/job/materials.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure, printable } from '../failure.ts'
import { table } from '../table.ts'

export async function hardware(call: Call): Promise<number> {
  const asked = textValue(call, 'material')
  const wanted = asked ?? 'mild steel'
  const material = findMaterial(wanted)
  if (!material) throw new Failure(`hardware: there is no material ${printable(wanted)} in the table`)
  const kinds = CATALOGUE.map((kind) => ({
    kind: kind.name,
    label: kind.label,
    ...(kind.material ? { material: kind.material } : {}),
    counts: kind.counts,
    usual: [
      ...usualSizes(kind, 'mm').map((_, i) => usualChoice(kind.name, 'mm', i)),
      ...(kind.usualInch ?? []).map((_, i) => usualChoice(kind.name, 'in', i)),
    ].map((usual) => {
      const choice = asked === undefined ? usual : { ...usual, material: material.name }
      const { footprint, height } = shapeOf(choice)
      const thread = kind.threaded ? usual.thread : null
      return { name: nameOf(choice), thread, sizes: usual.sizes, mass: massOf(choice), footprint, height }
    }),
  }))
  if (flag(call, 'json')) {
    printJson(call.io, { material: material.name, density: material.density, kinds })
    return EXIT.done
  }
  const { mass } = formatter('mm')
  call.io.out(`Usual sizes in mm, masses in ${material.name} (${material.density} kg/m³)\n`)
  for (const kind of kinds) {
    const own = asked === undefined && kind.material ? ` In ${kind.material}.` : ''
    const rows = kind.usual.map((u) => [
      u.thread ?? '',
      Object.entries(u.sizes)
        .map(([key, value]) => `${key} ${value}`)
        .join(', '),
      u.mass === null ? '' : mass(u.mass),
    ])
    call.io.out(
      `\n${kind.label}. ${kind.counts}${own}\n${table(rows, ['left', 'left', 'right']).join('\n')}\n`,
    )
  }
  return EXIT.done
}
