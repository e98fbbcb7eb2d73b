/** At zoom 0, tiles of 512 pixels. */
const metresPerPixelAtEquator = 40_075_016.686 / 512

/** Metres on the ground that a CSS pixel covers, Web Mercator. */
export const metresPerPixelAt = (latitude: number, zoom: number): number =>
  (metresPerPixelAtEquator * Math.cos((latitude * Math.PI) / 180)) / 2 ** zoom
