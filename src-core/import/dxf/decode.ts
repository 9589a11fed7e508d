/** Text of a DXF file from its bytes. Before AC1021 (2007) it is in the code page that the header names, then UTF-8. */
import { CAPS, Refusal } from '../refusal.ts'

const BINARY = 'AutoCAD Binary DXF'
/** $DWGCODEPAGE's names that differ from the Encoding Standard's labels. */
const CODE_PAGES: Record<string, string> = {
  ansi_932: 'shift_jis',
  ansi_936: 'gbk',
  ansi_949: 'euc-kr',
  ansi_950: 'big5',
  dos932: 'shift_jis',
  gb2312: 'gbk',
  big5: 'big5',
  johab: 'euc-kr',
}
/** Drawing version from which text is UTF-8. */
const FIRST_UTF8 = 'AC1021'

/** The text of a DXF in its own code page. Throws Refusal where it is too large, binary or a DWG. */
export function decodeDxf(bytes: Uint8Array): string {
  if (bytes.length > CAPS.bytes)
    throw new Refusal('the whole file', `${bytes.length} bytes, more than the ${CAPS.bytes} allowed`)
  const start = latin1(bytes.subarray(0, 32))
  if (start.startsWith(BINARY)) throw new Refusal('byte 0', 'a binary DXF: save it as ASCII (text) DXF')
  if (/^AC10\d\d/.test(start)) throw new Refusal('byte 0', 'a DWG drawing: save it as DXF')
  const header = latin1(bytes.subarray(0, 100_000))
  const version = /\$ACADVER\s+1\s+(AC\d{4})/.exec(header)?.[1] ?? 'AC1009'
  const page = /\$DWGCODEPAGE\s+3\s+(\S{1,20})/.exec(header)?.[1] ?? 'ANSI_1252'
  return new TextDecoder(version >= FIRST_UTF8 ? 'utf-8' : labelOf(page)).decode(bytes)
}

function labelOf(page: string): string {
  const name = page.toLowerCase()
  const known = CODE_PAGES[name]
  if (known) return known
  const number = /^ansi_(125[0-8])$/.exec(name)?.[1]
  return number ? `windows-${number}` : 'windows-1252'
}

/** One character a byte; windows-1252 is the label that every decoder has. */
const latin1 = (bytes: Uint8Array) => new TextDecoder('windows-1252').decode(bytes)
