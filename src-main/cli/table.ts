/** Plain text columns. */

export type Align = 'left' | 'right'

/** Rows as lines, columns two blanks apart, each as wide as its longest cell; `indent` before every line. */
export function table(
  rows: readonly (readonly string[])[],
  aligns: readonly Align[],
  indent = '  ',
): string[] {
  const widths = aligns.map((_, i) => Math.max(0, ...rows.map((row) => width(row[i] ?? ''))))
  return rows.map((row) => {
    const cells = aligns.map((align, i) => pad(row[i] ?? '', widths[i]!, align))
    return (indent + cells.join('  ')).trimEnd()
  })
}

const width = (text: string) => Array.from(text).length

function pad(text: string, to: number, align: Align): string {
  const blanks = ' '.repeat(Math.max(0, to - width(text)))
  return align === 'left' ? text + blanks : blanks + text
}

/** Text broken at blanks to at most `columns`, following lines indented by `hang`. */
export function wrap(text: string, columns: number, first: string, hang: string): string[] {
  const lines: string[] = []
  let line = first
  let empty = true
  for (const word of text.split(' ')) {
    if (!empty && width(line) + 1 + width(word) > columns) {
      lines.push(line)
      line = hang
      empty = true
    }
    line += empty ? word : ` ${word}`
    empty = false
  }
  return [...lines, line]
}
