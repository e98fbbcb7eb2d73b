import { createSignal, createUniqueId, For, Show } from 'solid-js'
import type { LevelProposals } from '#contract/level-proposals.ts'
import { lengthText } from '#domain/levels/level-words.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { type WatchedOfSeries, watchedOfSeries } from '#domain/site/vocabulary.ts'
import { clockEpochMs, spanEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant, formatShortInstant } from '../../ui/format-instant.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { LevelText } from '../LevelText.tsx'
import { VerdictRemarks } from '../VerdictRemarks.tsx'
import { everyLevel, levelStanding, listedLevels, measureOf } from './level-list.ts'
import { nameOfLevel, watchedWords } from './level-names.ts'

const mostShown = 100

/** The levels of the site, those in force at the clock at first, each in words. */
export function LevelTable(props: {
  waiting: LevelProposals['proposals']
  change: (level: TriggerLevel) => void
  end: (level: TriggerLevel) => void
  history: (level: TriggerLevel) => void
}) {
  const form = createUniqueId()
  const [filter, setFilter] = createSignal(everyLevel)
  const [all, setAll] = createSignal(false)
  const narrow = (changed: Partial<typeof everyLevel>) => setFilter({ ...filter(), ...changed })
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const levels = () => siteDocument()?.triggerLevels ?? []
  const stages = () => siteDocument()?.stages ?? []
  const at = () => clockEpochMs() ?? spanEpochMs().untilEpochMs
  const listed = () => listedLevels(levels(), stages(), filter(), at())
  const measures = () => [...new Set(levels().map(measureOf))].sort()
  const units = () => new Map((siteDocument()?.series ?? []).map(({ id, unit }) => [id, unit]))
  const stageName = (id: string) => stages().find((stage) => stage.id === id)?.name ?? id
  const proposedOf = (id: string) =>
    props.waiting.some(
      ({ decision, changes }) =>
        decision === null && changes.some((change) => change.kind !== 'add' && change.id === id),
    )
  return (
    <section class="levels-page" aria-label="Levels">
      <div class="levels-fields">
        <label>
          Instrument or name
          <input
            type="search"
            value={filter().name}
            onInput={(event) => narrow({ name: event.currentTarget.value })}
          />
        </label>
        <label>
          Measure
          <select
            value={filter().measure}
            onInput={(event) => narrow({ measure: event.currentTarget.value })}
          >
            <option value="">any</option>
            <For each={measures()}>
              {(measure) => (
                <option value={measure}>
                  {measureNames[measure as keyof typeof measureNames] ?? measure}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          Number
          <select
            value={filter().level ?? ''}
            onInput={(event) => narrow({ level: Number(event.currentTarget.value) || null })}
          >
            <option value="">any</option>
            <For each={siteDocument()?.facts.levelNames ?? []}>
              {(name, at) => <option value={at() + 1}>{name}</option>}
            </For>
          </select>
        </label>
        <label>
          Watches
          <select
            value={filter().kind}
            onInput={(event) => narrow({ kind: event.currentTarget.value as WatchedOfSeries | '' })}
          >
            <option value="">anything</option>
            <For each={watchedOfSeries}>{(kind) => <option value={kind}>{watchedWords[kind]}</option>}</For>
          </select>
        </label>
        <label>
          Stage
          <select value={filter().stage} onInput={(event) => narrow({ stage: event.currentTarget.value })}>
            <option value="">any or none</option>
            <For each={stages()}>{(stage) => <option value={stage.id}>{stage.name}</option>}</For>
          </select>
        </label>
        <label class="levels-check">
          <input
            id={`${form}-in-force`}
            type="checkbox"
            checked={filter().inForceOnly}
            onInput={(event) => narrow({ inForceOnly: event.currentTarget.checked })}
          />
          In force at {formatShortInstant(at(), zone())} only
        </label>
      </div>
      <p role="status">
        {listed().length} of {levels().length} levels.
      </p>
      <div class="scroll-across">
        <table class="plain levels-table">
          <thead>
            <tr>
              <th scope="col">Level</th>
              <th scope="col">Reached and left</th>
              <th scope="col">Action and owner</th>
            </tr>
          </thead>
          <tbody>
            <For each={all() ? listed() : listed().slice(0, mostShown)}>
              {(level) => (
                <tr>
                  <th scope="row">
                    {nameOfLevel(level.level)} <small>{level.id}</small>
                    <small>{level.series}</small>
                    <small>
                      <strong>{levelStanding(level, stages(), at())}</strong>, from{' '}
                      {formatInstant(level.validFrom, zone())}
                      {level.validUntil === null ? '' : ` until ${formatInstant(level.validUntil, zone())}`}
                      {level.stage == null ? '' : `, during ${stageName(level.stage)}`}
                    </small>
                  </th>
                  <td>
                    <LevelText level={level} unit={units().get(level.series) ?? ''} zone={zone()} />
                    <VerdictRemarks
                      about={(series) => series === level.series}
                      effects={['level to be reviewed']}
                    />
                    <small>{level.reason}</small>
                    <small>
                      Proposed by {level.author}, approved by {level.approver}
                    </small>
                  </td>
                  <td>
                    {level.action}
                    <small>
                      {level.owner}, within {lengthText(level.withinMinutes)}
                    </small>
                    <div class="levels-steps">
                      <button
                        type="button"
                        aria-label={`Change ${level.id}`}
                        onClick={() => props.change(level)}
                      >
                        Change
                      </button>
                      <button type="button" aria-label={`End ${level.id}`} onClick={() => props.end(level)}>
                        End
                      </button>
                      <button
                        type="button"
                        aria-label={`Proposals about ${level.id}`}
                        onClick={() => props.history(level)}
                      >
                        History
                      </button>
                    </div>
                    <Show when={proposedOf(level.id)}>
                      <small>A change waits for approval.</small>
                    </Show>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <Show when={!all() && listed().length > mostShown}>
        <button type="button" onClick={() => setAll(true)}>
          Show all {listed().length}
        </button>
      </Show>
    </section>
  )
}
