/** Map zooms between which symbols grow, and the sides of their boxes there. */
export const symbolGrowth = { fromZoom: 16, fromPixels: 22, untilZoom: 20, untilPixels: 52 } as const

/** Side of a symbol's box on the screen: small over the whole site, a thumb's width close by. */
export function symbolSizePixels(zoom: number, scale: number): number {
  const { fromZoom, fromPixels, untilZoom, untilPixels } = symbolGrowth
  const share = Math.min(1, Math.max(0, (zoom - fromZoom) / (untilZoom - fromZoom)))
  return Math.round(scale * (fromPixels + share * (untilPixels - fromPixels)))
}
