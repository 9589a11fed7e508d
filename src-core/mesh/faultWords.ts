import type { MeshFaults } from './faults.ts'

/** One sentence that names what keeps a mesh from being a solid, with counts; '' for a solid. */
export function meshFaultWords(faults: MeshFaults): string {
  const words: string[] = []
  if (faults.openEdges > 0) words.push(`the surface is open at ${edges(faults.openEdges)}`)
  if (faults.wronglyPairedEdges > 0)
    words.push(`triangles face opposite ways across ${edges(faults.wronglyPairedEdges)}`)
  if (words.length > 0 && faults.at)
    words.push(`the first near x ${faults.at.map((v) => v.toFixed(2)).join(', ')} mm`)
  if (words.length > 0) return words.join(', ')
  if (faults.empty) return 'the surface encloses nothing'
  if (faults.inverted) return 'the surface is inside out: its volume comes out negative'
  if (faults.invertedShells > 0) return `${faults.invertedShells} of the shells are inside out`
  return ''
}

const edges = (count: number) => (count === 1 ? '1 edge' : `${count} edges`)
