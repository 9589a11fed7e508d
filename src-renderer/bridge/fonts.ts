/** The sheet's fonts as bytes, for the PDF writer to embed. */
import bold from 'dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf?url'
import regular from 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url'

async function bytes(url: string): Promise<Uint8Array> {
  return new Uint8Array(await (await fetch(url)).arrayBuffer())
}

export async function sheetFonts(): Promise<{ regular: Uint8Array; bold: Uint8Array }> {
  const [r, b] = await Promise.all([bytes(regular), bytes(bold)])
  return { regular: r, bold: b }
}
