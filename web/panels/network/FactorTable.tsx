import { For } from 'solid-js'
import { packetsPerHour } from '#domain/radio/duty-cycle.ts'
import type { NetworkDesign, NetworkLoad } from '#domain/radio/network-plan.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { PlanDraft } from './plan-draft.ts'
import { successPercent } from './success-percent.ts'

/** What each spreading factor carries and loses. */
export function FactorTable(props: { draft: PlanDraft; design: NetworkDesign; plan: NetworkLoad }) {
  return (
    <section class="logger-scroll" aria-label="By spreading factor" tabindex="0">
      <table class="logger-table">
        <thead>
          <tr>
            <For
              each={[
                'Factor',
                'Loggers',
                'On the air, ms',
                'Share of time',
                'Most packets an hour',
                'Packet meets none',
                'Reading arrives',
                'Missed a day, each',
                'Six missed in a row, a day',
                'Not expected in 30 days',
              ]}
            >
              {(heading) => <th scope="col">{heading}</th>}
            </For>
          </tr>
        </thead>
        <tbody>
          <For each={props.plan.factors}>
            {(load) => (
              <tr>
                <th scope="row">{load.spreadingFactor}</th>
                <td>{formatValue(load.loggers, 0)}</td>
                <td>{formatValue(1000 * load.onAirSeconds, 1)}</td>
                <td>
                  {formatValue(100 * load.onAirShare, 3)} %{load.withinDuty ? '' : ' ✕ above the limit'}
                </td>
                <td>{packetsPerHour(load.onAirSeconds, props.design.dutyShare)}</td>
                <td>{successPercent(load.packetSuccess)}</td>
                <td>{successPercent(load.readingSuccess)}</td>
                <td>{formatValue(load.missedADayPerLogger, 1)}</td>
                <td>{load.sixMissedInARow < 1e-4 ? '< 0.01 %' : successPercent(load.sixMissedInARow)}</td>
                <td>
                  {Number.isFinite(load.gapNotExpectedReadings)
                    ? `a gap of ${formatAge(load.gapNotExpectedReadings * props.draft.intervalMinutes * 60_000)}`
                    : 'nothing arrives'}
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  )
}
