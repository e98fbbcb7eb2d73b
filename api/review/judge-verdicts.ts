import type { ContradictedVerdicts } from '#contract/contradicted-verdicts.ts'
import { hoursQuestion, readingsQuestion } from '#contract/review-questions.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import { casesOfPatch, patchQuestion } from '#domain/review/case/patch-cases.ts'
import type { KnownNetwork } from '#domain/review/case/reviewed-site.ts'
import { againStretch, contradictionsNow } from '#domain/review/verdict-again.ts'
import { siteWater } from '#domain/site/site-water.ts'
import type { Verdict } from '#domain/site/tables.ts'
import type { PublishedSlices } from './published-slices.ts'

/**
 * Holds verdicts against what was published, each as a page does that is open at the instant: the same questions to the same
 * slices, the same case, the same rules. A verdict on a series that has no values any more is left out, as nothing is known
 * of it.
 */
export async function judgeVerdicts(
  site: SiteDocument,
  verdicts: readonly Verdict[],
  network: KnownNetwork,
  asOfEpochMs: number,
  slices: PublishedSlices,
): Promise<ContradictedVerdicts['verdicts']> {
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!grid.ok) throw new Error(grid.issues.map(({ message }) => message).join(' '))
  const around = {
    barriers: barriersAt(site.works, grid.value, asOfEpochMs),
    waterUnitWeightKnPerM3: siteWater(site.facts).unitWeightKnPerM3,
  }
  const found: ContradictedVerdicts['verdicts'] = []
  for (const verdict of verdicts) {
    const subject = site.series.find(({ id }) => id === verdict.series)
    const stretch = subject && againStretch(verdict, subject, asOfEpochMs)
    if (!subject || !stretch) continue
    const question = patchQuestion(site, [subject], network, around, stretch)
    const hours = await slices.ask(hoursQuestion(stretch, question.hours))
    const readings = await slices.ask(readingsQuestion(stretch, [subject.series]))
    for (const reviewed of casesOfPatch(site, question, { hours, readings })) {
      const contradictions = contradictionsNow(verdict, site.verdictEvidence, reviewed)
      if (contradictions.length > 0)
        found.push({ verdict: verdict.id, series: verdict.series, contradictions: [...contradictions] })
    }
  }
  return found
}
