import { For } from 'solid-js'
import { describeCoverage } from '../derived/coverage-marks.ts'
import { coverageShown } from '../state/radio-marks.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** The coverage tests on the plan in words: verdict, counts, interval and what to be wary of. */
export function CoverageList() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <details class="coverage-list">
      <summary>{coverageShown().length} coverage tests in words</summary>
      <For each={coverageShown()}>
        {(mark) => (
          <details>
            <summary>
              {mark.test} {mark.met ? '✓ meets the rule' : '✗ does not meet it'},{' '}
              {formatShortInstant(mark.atEpochMs, zone())}
            </summary>
            <For each={describeCoverage(mark).slice(2)}>{(line) => <p>{line}</p>}</For>
          </details>
        )}
      </For>
    </details>
  )
}
