import { For, Show } from 'solid-js'
import { causes } from '#domain/review/cause.ts'
import { rulesVersion } from '#domain/review/rules-version.ts'
import { shareOfCauses } from '#domain/review/share-of-causes.ts'
import { decibansText } from '#domain/review/wording.ts'
import type { Verdict, VerdictEvidence } from '#domain/site/tables.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { formatValue } from '../ui/format-value.ts'

/** The evidence as it stood when a verdict was found: ranking, shares and figures, under the rules of then. */
export function EvidenceThen(props: { verdict: Verdict }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const lines = () =>
    (siteDocument()?.verdictEvidence ?? []).filter(({ verdict }) => verdict === props.verdict.id)
  const totals = () => {
    const sums = causes.map((cause) => ({
      cause,
      decibans: lines().reduce((sum, line) => sum + (line.cause === cause ? line.decibans : 0), 0),
    }))
    return shareOfCauses(sums).toSorted((one, other) => other.decibans - one.decibans)
  }
  return (
    <Show when={lines().length > 0}>
      <details class="record-more">
        <summary>Evidence as it stood for {props.verdict.id}</summary>
        <p>
          Known at {formatInstant(props.verdict.evidenceUntilAt ?? props.verdict.at, zone())}, readings since{' '}
          {formatInstant(props.verdict.evidenceFromAt ?? props.verdict.fromAt, zone())}, rules of{' '}
          {props.verdict.rulesVersion}
          {props.verdict.rulesVersion === rulesVersion ? '' : ` (now: ${rulesVersion})`}.{' '}
          {totals()
            .map(({ cause, decibans, share }) => `${cause} ${decibansText(decibans)} (${percent(share)})`)
            .join(', ')}
          . Shares hold if one of the five is the cause.
        </p>
        <section class="scroll-across" aria-label="Evidence as it stood, scrolls sideways" tabindex="0">
          <table class="plain">
            <thead>
              <tr>
                <th scope="col">Cause</th>
                <th scope="col">Stands</th>
                <th scope="col">Weight</th>
                <th scope="col">What was found</th>
                <th scope="col">Figure</th>
              </tr>
            </thead>
            <tbody>
              <For each={lines()}>
                {(line) => (
                  <tr>
                    <th scope="row">{line.cause}</th>
                    <td>{line.stands}</td>
                    <td>{line.stands === 'missing' ? '–' : decibansText(line.decibans)}</td>
                    <td>{line.sentence}</td>
                    <td>
                      {line.figure === null
                        ? '–'
                        : `${formatValue(line.figure, 3)} ${line.figureUnit ?? ''}${rangeText(line)}`}
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </details>
    </Show>
  )
}

const percent = (share: number): string => (share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`)

/** Lines that were kept before figures had an interval have none. */
const rangeText = ({ figureLow, figureHigh }: VerdictEvidence): string =>
  figureLow === null || figureHigh === null
    ? ''
    : ` (95 %: ${formatValue(figureLow, 3)} to ${formatValue(figureHigh, 3)})`
