import { findMaterial } from '../job/materials.ts'

/** kg/mm³ of the steel that studs, straps and heels are made of. */
export const STEEL_PER_MM3 = findMaterial('mild steel')!.density * 1e-9
