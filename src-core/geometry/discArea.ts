/** mm²: area of a disc, π/4·d². */
export const discArea = (diameter: number): number => (Math.PI / 4) * diameter ** 2
