/** What a long run found, for `npm run robustness`, which prints such lines. */
export function figure(text: string): void {
  if (process.env['EVENSWING_FIGURES']) console.log(`figure: ${text}`)
}
