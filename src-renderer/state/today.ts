/** The date a sheet is drawn on, YYYY-MM-DD (ISO 8601), by this machine's clock. */
export function today(): string {
  const now = new Date()
  const two = (n: number) => String(n).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}
