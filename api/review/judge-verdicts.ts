import type { ContradictedVerdicts } from '#contract/contradicted-verdicts.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import type { KnownNetwork } from '#domain/review/case/reviewed-site.ts'
import { siteWater } from '#domain/site/site-water.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { type Judgement, judgeVerdict } from './judge-verdict.ts'
import type { PublishedSlices } from './published-slices.ts'

/** What came of holding verdicts against what was published. Whatever is in neither list was looked at, and nothing speaks against it. */
export type JudgedVerdicts = Pick<ContradictedVerdicts, 'verdicts' | 'unjudged'>

/** Holds verdicts against what was published, one after another. One that fails is not judged, and the others are. */
export async function judgeVerdicts(
  site: SiteDocument,
  verdicts: readonly Verdict[],
  network: KnownNetwork,
  asOfEpochMs: number,
  slices: PublishedSlices,
): Promise<JudgedVerdicts> {
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!grid.ok) throw new Error(grid.issues.map(({ message }) => message).join(' '))
  const around = {
    barriers: barriersAt(site.works, grid.value, asOfEpochMs),
    waterUnitWeightKnPerM3: siteWater(site.facts).unitWeightKnPerM3,
  }
  const judged: JudgedVerdicts = { verdicts: [], unjudged: [] }
  for (const verdict of verdicts) {
    const judgement = await judgeVerdict(verdict, { site, network, around, asOfEpochMs, slices }).catch(
      (cause: unknown) => failed(verdict, cause),
    )
    if (judgement === null) continue
    if ('contradicted' in judgement) judged.verdicts.push(judgement.contradicted)
    else judged.unjudged.push(judgement.unjudged)
  }
  return judged
}

const failed = ({ id, series }: Verdict, cause: unknown): Judgement => ({
  unjudged: {
    verdict: id,
    series,
    why: 'failed',
    reason: `Holding it against what was published failed: ${wordsOfFailure(cause)}`,
  },
})
