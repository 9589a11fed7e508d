// placeholder until the threads table lands: overwrite this file
export function threadDiameter(name: string): number | null {
  const metric = /^M(\d+(?:\.\d+)?)$/.exec(name.trim())
  return metric ? Number(metric[1]) : null
}
