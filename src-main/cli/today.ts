/** The date a sheet is drawn on, YYYY-MM-DD (ISO 8601); `SOURCE_DATE_EPOCH`, in seconds, gives the same bytes twice. */
export function today(env: NodeJS.ProcessEnv = process.env): string {
  const epoch = Number(env['SOURCE_DATE_EPOCH'])
  const date = env['SOURCE_DATE_EPOCH'] && Number.isFinite(epoch) ? new Date(epoch * 1000) : null
  if (date && !Number.isNaN(date.getTime())) return date.toISOString().slice(0, 10)
  const now = new Date()
  const two = (n: number) => String(n).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}
