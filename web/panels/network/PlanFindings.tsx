import { alohaThroughput, loadForSuccess, loadOfMostThroughput } from '#domain/radio/aloha.ts'
import { mostSendersOfMix, type NetworkDesign, type NetworkLoad } from '#domain/radio/network-plan.ts'
import { formatValue } from '../../ui/format-value.ts'
import { bandOf, type PlanDraft } from './plan-draft.ts'
import { successPercent } from './success-percent.ts'

/** What arrives and what is missed, how many loggers are the most, and whether the band's rules are kept. */
export function PlanFindings(props: {
  draft: PlanDraft
  design: NetworkDesign
  plan: NetworkLoad
  mostLoggers: number
}) {
  const mostOnPaper = () => mostSendersOfMix(props.design, loadForSuccess(props.draft.wantedPercent / 100))
  const over = () => props.plan.factors.filter((load) => !load.withinDuty)
  const slowest = () => props.plan.factors.at(-1)
  return (
    <div class="network-findings" aria-live="polite">
      <p>
        <strong>{successPercent(props.plan.readingSuccess)}</strong> of the readings arrive: of{' '}
        {formatValue(props.plan.readingsADay, 0)} a day{' '}
        <strong>{formatValue(props.plan.missedADay, 0)}</strong> are missed,{' '}
        {formatValue(props.plan.missedADay / props.draft.loggers, 1)} a logger.
      </p>
      <p>
        At most <strong>{props.mostLoggers >= 100_000 ? 'more than 100 000' : props.mostLoggers}</strong>{' '}
        loggers keep {props.draft.wantedPercent} % at every factor of this mix ({mostOnPaper()} by the
        approximation for very many).{' '}
        {props.mostLoggers < props.draft.loggers
          ? `The ${props.draft.loggers} asked for are too many: longer intervals, more channels, faster factors or another gateway.`
          : ''}
      </p>
      <p>
        A channel and factor carries most, {successPercent(alohaThroughput(loadOfMostThroughput))} of its
        time, with {mostSendersOfMix(props.design, loadOfMostThroughput)} loggers of this mix; beyond that
        each further logger lowers what arrives in all.
      </p>
      <p>
        {over().length === 0
          ? `Every logger keeps within the band’s share of an hour: at the slowest factor it is on the air for ${formatValue(100 * (slowest()?.onAirShare ?? 0), 2)} % of the time, ${formatValue(100 * bandOf(props.draft.bandId).dutyShare, 1)} % are allowed.`
          : `Against the band’s rules: at ${over()
              .map(
                (load) =>
                  `factor ${load.spreadingFactor} one reading in ${formatValue(load.shortestIntervalSeconds / 60, 1)} min is the most`,
              )
              .join('; ')}.`}
      </p>
    </div>
  )
}
