import { createMemo, createSignal, createUniqueId, For, Show } from 'solid-js'
import type { LevelPreview } from '#contract/level-proposals.ts'
import { withCombinations } from '#domain/levels/combinations-with.ts'
import type { LevelChange } from '#domain/levels/level-change.ts'
import { freeName } from '#domain/levels/levels-csv.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { type WatchedOfSeries, watchedOfSeries } from '#domain/site/vocabulary.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { selectedSeries } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { sync } from '../../ui/sync.ts'
import { LevelText } from '../LevelText.tsx'
import type { Proposals } from './create-proposals.ts'
import { LevelField } from './LevelField.tsx'
import { fieldsOfKind, fieldsOfLevel, type LevelFields, levelOfFields } from './level-fields.ts'
import { nameOfLevel, watchedWords } from './level-names.ts'
import { PreviewResult } from './PreviewResult.tsx'
import { SignProposal } from './SignProposal.tsx'

/** Typing rests so long before what is written is judged. */
const restMs = 700
const triedDays = [30, 90, 300] as const

/** Proposes a new level, or one in the place of another; what speaks against it stands below while one writes. */
export function LevelForm(props: { proposals: Proposals; level: TriggerLevel | null; done: () => void }) {
  const form = createUniqueId()
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const taken = () => new Set((siteDocument()?.triggerLevels ?? []).map(({ id }) => id))
  const begin = fieldsOfLevel(props.level, {
    series: selectedSeries()[0]?.id ?? '',
    fromEpochMs: siteNowEpochMs(),
    zone: zone(),
  })
  const [fields, setFields] = createSignal<LevelFields>({
    ...begin,
    id: props.level === null ? '' : freeName(props.level.id, taken()),
    validUntil: props.level?.validUntil == null ? '' : begin.validUntil,
  })
  const [reason, setReason] = createSignal('')
  const [preview, setPreview] = createSignal<LevelPreview | null>(null)
  const [working, setWorking] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const write = (changed: Partial<LevelFields>) => setFields({ ...fields(), ...changed })
  const read = createMemo(() => levelOfFields(fields(), zone()))
  const unread = (field: keyof LevelFields) => {
    const now = read()
    return 'unread' in now ? (now.unread.get(field) ?? null) : null
  }
  const series = () => siteDocument()?.series.find(({ id }) => id === fields().series)
  const looked = (field: keyof LevelFields) => fieldsOfKind[fields().watches].includes(field)
  const changes = (): readonly LevelChange[] | null => {
    const now = read()
    if ('unread' in now) return null
    return props.level === null
      ? [{ kind: 'add', level: now.level }]
      : withCombinations(siteDocument()?.triggerLevels ?? [], [
          { kind: 'replace', id: props.level.id, level: now.level },
        ])
  }
  const withIt = () =>
    (changes() ?? []).slice(1).flatMap((change) => (change.kind === 'add' ? [] : [change.id]))
  const judge = async (fromEpochMs: number | null) => {
    const made = changes()
    if (made === null) return
    setWorking(true)
    try {
      const answer = await props.proposals.preview({ changes: [...made], reason: reason(), fromEpochMs })
      if (answer) setPreview(answer)
      setTrouble(null)
    } catch (cause) {
      setPreview(null)
      setTrouble(sentenceOf(cause))
    } finally {
      setWorking(false)
    }
  }
  sync(
    () => [changes(), reason()] as const,
    () => {
      // What was found against another level says nothing of this one.
      setPreview(null)
      const timer = setTimeout(() => void judge(null), restMs)
      return () => clearTimeout(timer)
    },
  )
  const unit = () => series()?.unit ?? ''
  const valueUnit = () =>
    fields().watches === 'silence' ? 'minutes' : fields().watches === 'rate' ? `${unit()} a day` : unit()
  const field = (
    name: keyof LevelFields,
    label: string,
    more: { hint?: string; type?: string; wide?: true; list?: string } = {},
  ) => (
    <LevelField
      form={form}
      name={name}
      label={label}
      {...more}
      value={fields()[name]}
      fault={unread(name)}
      write={(value) => write({ [name]: value })}
    />
  )
  return (
    <section class="levels-page" aria-label="Propose a level">
      <h2>{props.level === null ? 'Propose a level' : `Propose a change of ${props.level.id}`}</h2>
      <Show when={props.level}>
        {(level) => (
          <p>
            As it is: <LevelText level={level()} unit={unit()} zone={zone()} />. It ends where the new one
            begins.
          </p>
        )}
      </Show>
      <Show when={withIt().length > 0}>
        <p>{withIt().join(', ')}, which counts it, is replaced with it by one that counts the new level.</p>
      </Show>
      <div class="verdict-form">
        {field('series', 'Series', { hint: 'point/measure', list: `${form}-all-series` })}
        <datalist id={`${form}-all-series`}>
          <For each={siteDocument()?.series ?? []}>{({ id }) => <option value={id} />}</For>
        </datalist>
        {field('id', 'Name', { hint: 'of its own; names are kept' })}
        <div class="layout-field">
          <label for={`${form}-level`}>Number</label>
          <select
            id={`${form}-level`}
            value={fields().level}
            onInput={(event) => write({ level: event.currentTarget.value })}
          >
            <For each={siteDocument()?.facts.levelNames ?? []}>
              {(_, at) => <option value={at() + 1}>{nameOfLevel(at() + 1)}</option>}
            </For>
          </select>
        </div>
        <div class="layout-field">
          <label for={`${form}-watches`}>Watches</label>
          <select
            id={`${form}-watches`}
            value={fields().watches}
            onInput={(event) => write({ watches: event.currentTarget.value as WatchedOfSeries })}
          >
            <For each={watchedOfSeries}>{(kind) => <option value={kind}>{watchedWords[kind]}</option>}</For>
          </select>
        </div>
        <Show when={looked('direction')}>
          <div class="layout-field">
            <label for={`${form}-direction`}>Reached</label>
            <select
              id={`${form}-direction`}
              value={fields().direction}
              onInput={(event) => write({ direction: event.currentTarget.value as LevelFields['direction'] })}
            >
              <option value="above">at or above it</option>
              <option value="below">at or below it</option>
              <option value="either">that far either way</option>
            </select>
          </div>
        </Show>
        <Show when={looked('value')}>
          {field('value', fields().watches === 'silence' ? 'Without a reading for' : 'Level', {
            hint: valueUnit(),
          })}
        </Show>
        <Show when={looked('against')}>
          {field('against', fields().watches === 'combination' ? 'Levels' : 'Less the series', {
            hint:
              fields().watches === 'combination'
                ? 'names of levels, separated by semicolons'
                : 'point/measure of the same unit',
            ...(fields().watches === 'combination' ? { wide: true } : { list: `${form}-all-series` }),
          })}
        </Show>
        <Show when={looked('needed')}>
          {field('needed', 'Held at once', { hint: 'how many of them; empty: all' })}
        </Show>
        <Show when={looked('windowMinutes')}>
          {field('windowMinutes', fields().watches === 'rate' ? 'Over' : 'Other reading at most so old', {
            hint: 'minutes; 1440 are a day',
          })}
        </Show>
        <Show when={looked('changeSince')}>
          {field('changeSince', 'Counted from the reading at', {
            type: 'datetime-local',
            hint: `site time, ${zone()}`,
          })}
        </Show>
        <Show when={looked('holdReadings')}>
          {field('holdReadings', 'Readings in a row', { hint: 'that must agree; empty: 1' })}
        </Show>
        <Show when={looked('holdMinutes')}>
          {field(
            'holdMinutes',
            fields().watches === 'silence' ? 'Ends once readings come for' : 'And for at least',
            {
              hint: 'minutes; empty: 0',
            },
          )}
        </Show>
        <Show when={looked('longestGapMinutes')}>
          {field('longestGapMinutes', 'No further apart than', { hint: 'minutes; empty: any' })}
        </Show>
        <Show when={looked('hysteresisPercent')}>
          {field('hysteresisPercent', 'Left so far behind it', { hint: 'percent of the level; empty: 0' })}
        </Show>
        <div class="layout-field">
          <label for={`${form}-stage`}>During stage</label>
          <select
            id={`${form}-stage`}
            value={fields().stage}
            onInput={(event) => write({ stage: event.currentTarget.value })}
          >
            <option value="">whatever the works do</option>
            <For each={siteDocument()?.stages ?? []}>
              {(stage) => <option value={stage.id}>{stage.name}</option>}
            </For>
          </select>
        </div>
        {field('validFrom', 'Applies from', { type: 'datetime-local', hint: `site time, ${zone()}` })}
        {field('validUntil', 'Until before', { type: 'datetime-local', hint: 'empty: without end' })}
        {field('action', 'What is done when it is reached', { wide: true })}
        {field('owner', 'Who does it', {})}
        {field('withinMinutes', 'Within', { hint: 'minutes' })}
        {field('reason', 'Where the value comes from', { wide: true })}
      </div>
      <section class="levels-judged" aria-label="What is found against it" aria-live="polite">
        <Show
          when={levelRead(read())}
          fallback={<p>What is found against it stands here once every field can be read.</p>}
        >
          {(level) => (
            <p>
              <strong>
                <LevelText level={{ ...level(), author: '', approver: '' }} unit={unit()} zone={zone()} />
              </strong>
            </p>
          )}
        </Show>
        <Show when={changes() !== null}>
          <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
          <Show when={preview()}>{(shown) => <PreviewResult preview={shown()} named={true} />}</Show>
          <div class="buttons">
            <For each={triedDays}>
              {(days) => (
                <button
                  type="button"
                  disabled={working()}
                  onClick={() => void judge(siteNowEpochMs() - days * 86_400_000)}
                >
                  Try on the last {days} days
                </button>
              )}
            </For>
          </div>
          <p role="status">{working() ? 'Working it out …' : ''}</p>
        </Show>
      </section>
      <SignProposal
        proposals={props.proposals}
        changes={changes}
        reason={reason()}
        setReason={setReason}
        done={props.done}
      />
    </section>
  )
}

const levelRead = (read: ReturnType<typeof levelOfFields>) => ('level' in read ? read.level : null)
