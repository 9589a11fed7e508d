// placeholder until the cutting tables land: overwrite this file
export const cuttingRpm = (speed: number, diameter: number): number => (1000 * speed) / (Math.PI * diameter)
