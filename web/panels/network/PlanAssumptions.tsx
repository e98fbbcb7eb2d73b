import { dutySource } from '#domain/radio/duty-cycle.ts'
import { factorsFromTests, goodShare } from '#domain/radio/factor-mix.ts'
import type { FactorLoad } from '#domain/radio/network-plan.ts'
import { chanceOfOverlap, secondsUntilApart } from '#domain/radio/repeated-meetings.ts'
import { networkOverheadBytes } from '#domain/radio/time-on-air.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatAge } from '../../ui/format-instant.ts'
import type { PlanDraft } from './plan-draft.ts'
import { successPercent } from './success-percent.ts'

/** Drift between two clocks with which meetings of loggers at fixed phases are told. */
const usualDriftSecondsPerDay = 2

/** What the figures of a plan rest on. */
export function PlanAssumptions(props: { draft: PlanDraft; slowest: FactorLoad | null }) {
  const tested = () => factorsFromTests(siteDocument()?.coverageTests ?? []).length
  return (
    <details open>
      <summary>What is assumed, and where it comes from</summary>
      <ul>
        <li>
          {props.draft.factors === 'tests' && tested() > 0
            ? `Mix of factors: of ${tested()} loggers with a coverage test here, the fastest factor at which the newest test delivered ${100 * goodShare} %, else the best one.`
            : props.draft.factors === 'tests'
              ? 'This site has no coverage tests at loggers: the factors are split evenly instead.'
              : 'The factors are as chosen, not as measured here.'}
        </li>
        <li>
          Time on air: formula of the modulation as in Bor and Roedig (2017) and Casals et al. (2017), 125
          kHz, rate 4/5, preamble of 8, header, checksum, low-rate optimisation where a symbol is longer than
          16 ms; the network adds {networkOverheadBytes} bytes to a reading.
        </li>
        <li>
          Collisions: each logger sends at phases of its own on a channel drawn for each packet, and listens
          to none (exact for a finite number; pure ALOHA, Abramson 1970, for very many). Any overlap loses
          both packets, which is pessimistic: the stronger one often survives. Factors are taken as deaf to
          each other, and a gateway hears no more than about eight packets at once and none while it sends
          itself: that is optimistic.
        </li>
        <li>
          Loggers that keep their phase instead meet again and again: at factor{' '}
          {props.slowest?.spreadingFactor} a logger overlaps another with a chance of{' '}
          {successPercent(
            chanceOfOverlap(
              props.slowest?.loggers ?? 0,
              props.slowest?.onAirSeconds ?? 0,
              60 * props.draft.intervalMinutes,
            ),
          )}
          , and with clocks {usualDriftSecondsPerDay} s a day apart it lasts{' '}
          {formatAge(1000 * secondsUntilApart(props.slowest?.onAirSeconds ?? 0, usualDriftSecondsPerDay))}.
          Have phases drawn at random.
        </li>
        <li>
          Losses in a row are reckoned as if each came by itself: real ones come in bursts, so gaps are
          longer.
        </li>
        <li>Share of an hour: {dutySource}</li>
      </ul>
    </details>
  )
}
