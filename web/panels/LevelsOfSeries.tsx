import { For, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { Series } from '#contract/site-document.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { allowedWords } from './alerts/level-words.ts'
import { AlertsOfLevel } from './alerts/RecordAlerts.tsx'
import { LevelText } from './LevelText.tsx'

/** Trigger levels of a series with their response plan, and what calibrations say against them. */
export function LevelsOfSeries(props: {
  series: Series | null
  levels: readonly TriggerLevel[]
  cautions: CalibrationList['levelCautions']
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const stageName = (id: string) => siteDocument()?.stages.find((stage) => stage.id === id)?.name ?? id
  const cautionsOf = (level: string) => props.cautions.filter((caution) => caution.level === level)
  return (
    <table class="plain">
      <caption>Trigger levels of {props.series?.id}</caption>
      <thead>
        <tr>
          <th scope="col">Level</th>
          <th scope="col">Value</th>
          <th scope="col">From</th>
          <th scope="col">Response plan</th>
        </tr>
      </thead>
      <tbody>
        <For each={props.levels}>
          {(level) => (
            <tr>
              <th scope="row">{siteDocument()?.facts.levelNames[level.level - 1] ?? level.level}</th>
              <td>
                <LevelText level={level} unit={props.series?.unit ?? ''} zone={zone()} />
                <For each={cautionsOf(level.id)}>
                  {(caution) => <p class="trouble">{caution.sentence}</p>}
                </For>
              </td>
              <td>
                {formatShortInstant(level.validFrom, zone())}
                <Show when={level.stage}>{(stage) => <small> during {stageName(stage())}</small>}</Show>
              </td>
              <td>
                {level.action}{' '}
                <small>
                  {level.owner}, within {allowedWords(level.withinMinutes)}
                </small>
                <AlertsOfLevel level={level.id} />
              </td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  )
}
