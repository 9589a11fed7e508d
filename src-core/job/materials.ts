// placeholder until the materials table lands: overwrite this file
export interface Material {
  name: string
  density: number
}
export const findMaterial = (_name: string): Material | null => null
