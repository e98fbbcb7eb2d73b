import type { SiteDocument } from '#contract/site-document.ts'
import { metresBetween } from '#domain/geometry/straight-distance.ts'
import { type OpenEffect, openEffects } from '#domain/site/open-effects.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { confidenceMeans, type VerdictEffect } from '#domain/site/verdict-words.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** A visit noted within so many metres was to the point. */
const atItMetres = 3

type Site = Pick<
  SiteDocument,
  'verdicts' | 'verdictWithdrawals' | 'series' | 'points' | 'diary' | 'joins' | 'triggerLevels'
>

/**
 * What verdicts ask for at an instant and nobody has seen to: a later calibration or zero of the series closes a re-zero
 * and a replacement, a later join or end of the series a replacement, a later visit noted at the point a visit, a later
 * level of the series a level to be reviewed. Flags stay as long as the verdict holds.
 */
export function openVerdictEffects(site: Site, asOfEpochMs: number): readonly OpenEffect[] {
  return openEffects(site, asOfEpochMs, (verdict, effect) => doneAt(site, verdict, effect))
}

function doneAt(site: Site, verdict: Verdict, effect: VerdictEffect): readonly number[] {
  const series = site.series.find(({ id }) => id === verdict.series)
  const zeros = (series?.uncertaintyPeriods ?? []).map(({ fromEpochMs }) => fromEpochMs)
  switch (effect) {
    case 'flag readings':
      return []
    case 're-zero':
      return zeros
    case 'replace the instrument': {
      const joins = site.joins.filter(({ follows }) => follows === verdict.series).map(({ at }) => at)
      return [...zeros, ...joins, ...(series?.endedAtEpochMs === undefined ? [] : [series.endedAtEpochMs])]
    }
    case 'visit ordered': {
      const point = site.points.find(({ id }) => id === series?.point)
      return site.diary.flatMap(({ kind, at, eastingMetres, northingMetres }) =>
        kind === 'visit' &&
        point &&
        eastingMetres != null &&
        northingMetres != null &&
        metresBetween(point, { eastingMetres, northingMetres }) <= atItMetres
          ? [at]
          : [],
      )
    }
    case 'level to be reviewed':
      return site.triggerLevels
        .filter((level) => level.series === verdict.series)
        .map(({ validFrom }) => validFrom)
  }
}

/** What a verdict asks for, in a sentence: who asked when, on what grounds and how sure. */
export function effectSentence({ verdict, effect }: OpenEffect, timeZone: string): string {
  const { id, series, author, at, cause, confidence } = verdict
  const laidOn =
    cause == null ? '' : cause === 'not told apart' ? ', cause not told apart' : `, laid on the ${cause}`
  const sure = confidence == null ? '' : ` (${confidence}: ${confidenceMeans[confidence]})`
  return `${asks[effect]} ${series}. Verdict ${id}: ${verdict.verdict}${laidOn}${sure}, ${author}, ${formatShortInstant(at, timeZone)}.`
}

const asks: Readonly<Record<VerdictEffect, string>> = {
  'flag readings': 'Readings flagged:',
  'replace the instrument': 'Instrument to be replaced:',
  're-zero': 'To be zeroed anew:',
  'visit ordered': 'Visit ordered:',
  'level to be reviewed': 'Levels to be reviewed:',
}
