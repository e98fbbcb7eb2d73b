import type { SiteDocument } from '#contract/site-document.ts'
import { groundDistance } from '#domain/geometry/ground-distance.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import { utmCrs } from '#domain/geometry/utm-zone.ts'
import { formatValue } from '../ui/format-value.ts'

/** The middle of the site's locations; null without any. */
export function middleOfSite(document: SiteDocument): SitePoint | null {
  const { locations } = document
  if (locations.length === 0) return null
  const mean = (of: (location: (typeof locations)[number]) => number) =>
    locations.reduce((sum, one) => sum + of(one), 0) / locations.length
  return [mean((one) => one.eastingMetres), mean((one) => one.northingMetres)]
}

/** How the site's grid lies on the earth and on the ground, in sentences. */
export function gridSentences(document: SiteDocument, grid: SiteGrid): readonly string[] {
  const sentences = [
    grid.local
      ? `The site has its own grid, tied to ${grid.name} by ${document.controlPoints.length} control points.`
      : `The site grid is ${grid.name}.`,
  ]
  if (grid.shiftAccuracyMetres !== null)
    sentences.push(
      `Its datum is brought to WGS 84 to about ${formatValue(grid.shiftAccuracyMetres, 0)} m; distances within the site do not suffer.`,
    )
  if (grid.local) sentences.push(...fitSentences(grid.local))
  const middle = middleOfSite(document)
  if (!middle) return sentences
  const level = document.facts.groundLevelMetres
  const factors = grid.factorsAt(middle, level)
  const perKilometre = (groundDistance(1000, factors.combinedFactor) - 1000) * 1000
  sentences.push(
    `In the middle of the site, at ${formatValue(level, 1)} m, 1 km on the grid is 1 km ${perKilometre < 0 ? 'less' : 'and'} ${formatValue(Math.abs(perKilometre), 0)} mm on the ground (combined factor ${factors.combinedFactor.toFixed(8)}; point scale factor ${factors.pointScaleFactor.toFixed(8)}).`,
    `True bearing is grid bearing ${factors.convergenceDegrees < 0 ? 'less' : 'and'} ${formatValue(Math.abs(factors.convergenceDegrees), 4)}° (convergence).`,
    `The place lies in UTM zone ${utmCrs(grid.toLngLat(middle))}.`,
  )
  return sentences
}

function fitSentences(fit: NonNullable<SiteGrid['local']>): readonly string[] {
  return [
    `Fitted by least squares: turned by ${formatValue(fit.rotationDegrees, 5)}° counter-clockwise, scale ${fit.scale.toFixed(8)}${fit.scaleHeld ? ' (held)' : ''}.`,
    fit.standardErrorMetres !== null && fit.residuals.length > 2
      ? `Standard error of a coordinate ${formatValue(fit.standardErrorMetres * 1000, 1)} mm, with ${fit.redundancy} coordinates to spare.`
      : 'Two control points fix the grid and leave nothing to check it by: a third is needed before a mistake in one of them can show.',
  ]
}
