import { createMemo, createSignal, createUniqueId, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { verdicts } from '#domain/site/vocabulary.ts'
import { timeHistory } from '../queries/time-history.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { rememberedName, rememberName } from '../state/own-name.ts'
import { clockEpochMs, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { measureNames } from '../ui/kind-names.ts'
import { sync } from '../ui/sync.ts'
import { historyTraces } from '../views/time-history/history-from-site.ts'
import type { HistoryStretch } from '../views/time-history/history-props.ts'
import { tallyStretch } from '../views/time-history/stretch-tally.ts'
import { createAnswer } from './create-answer.ts'
import { createFaults } from './create-faults.tsx'
import { stretchSentences } from './stretch-sentences.ts'
import { VerdictShape } from './VerdictShape.tsx'
import {
  draftOfVerdict,
  fieldOfIssue,
  type Lasting,
  stretchFields,
  stretchOfDraft,
  type VerdictFields,
} from './verdict-fields.ts'

/** A verdict on a stretch of readings to enter: what it covers is told before it is saved. */
export function VerdictForm(props: {
  /** Series to choose from; the first is proposed. */
  series: readonly Series[]
  /** A stretch that was dragged out in the drawing; the fields follow it. */
  dragged?: HistoryStretch | null
  /** Told what the fields say, while they say a stretch. */
  proposes?: (stretch: HistoryStretch | null) => void
  saved: () => void
  leave: () => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const form = createUniqueId()
  const idOf = (field: keyof VerdictFields) => `${form}-${field}`
  const faults = createFaults(form, fieldOfIssue)
  const [saving, setSaving] = createSignal(false)
  const until = Math.floor((clockEpochMs() ?? spanEpochMs().untilEpochMs) / minuteMs) * minuteMs + minuteMs
  // The last day, or as far back as there is planned to be a reading.
  const proposedMs = Math.max(dayMs, 2 * minuteMs * (props.series[0]?.intervalMinutes ?? 0))
  const [fields, setFields] = createSignal<VerdictFields>({
    series: props.series[0]?.id ?? '',
    ...stretchFields({ fromEpochMs: until - proposedMs, untilEpochMs: until }, zone()),
    verdict: '',
    reason: '',
    alternatives: '',
    author: rememberedName(),
  })
  const change = (some: Partial<VerdictFields>) => setFields((now) => ({ ...now, ...some }))
  sync(
    () => props.dragged,
    (dragged) => {
      if (dragged) change(stretchFields(dragged, zone()))
    },
  )
  sync(
    () => props.series.map(({ id }) => id),
    (ids) => {
      if (!ids.includes(fields().series)) change({ series: ids[0] ?? '' })
    },
  )
  const draft = () => draftOfVerdict(fields(), zone())
  const stretch = createMemo(() => stretchOfDraft(draft(), spanEpochMs().untilEpochMs), null, {
    equals: (one, other) => JSON.stringify(one) === JSON.stringify(other),
  })
  sync(stretch, (proposed) => {
    props.proposes?.(proposed)
    return () => props.proposes?.(null)
  })
  const chosen = () => props.series.find(({ id }) => id === fields().series)

  const asked = createAnswer(() => {
    const series = chosen()
    const wanted = stretch()
    if (!series || !wanted) return null
    return {
      ...timeHistory({
        ...wanted,
        // Readings themselves are counted where there are not too many of them to fetch.
        widthPixels: mostRowsCounted / 2,
        intervalMinutes: series.intervalMinutes,
        series: [series.series],
      }),
      stretch: wanted,
      of: series,
    }
  })
  const covers = (): readonly string[] => {
    const answer = asked.answer()
    if (stretch() === null) return ['The end must lie later than the beginning.']
    if (!answer || asked.waiting()) return ['Counting what it covers …']
    const { resolution, stretch: counted, of } = answer.question
    const [trace] = historyTraces(answer.columns, resolution)
    const site = siteDocument()
    const levels = valueLevels(site?.triggerLevels ?? [], site?.stages ?? []).filter(
      ({ series }) => series === of.id,
    )
    const tally = trace ? tallyStretch(trace, counted, levels) : null
    return stretchSentences(tally, counted, siteDocument()?.facts.levelNames ?? [], zone())
  }

  const save = async (event: SubmitEvent) => {
    event.preventDefault()
    faults.clear()
    rememberName(fields().author)
    setSaving(true)
    const site = siteDocument()?.facts.id ?? ''
    try {
      await sendServer(sitePath(site, '/verdicts'), draft())
      announce(`The verdict on ${fields().series} is saved`)
      props.saved()
      showSaved(site)
    } catch (cause) {
      faults.take(cause)
    } finally {
      setSaving(false)
    }
  }

  const instant = (field: 'from' | 'until', label: string) => (
    <div class="layout-field">
      <label for={idOf(field)}>{label}</label>
      <input
        id={idOf(field)}
        {...faults.troubled(field)}
        type="datetime-local"
        required
        value={fields()[field]}
        onInput={(event) => change({ [field]: event.currentTarget.value })}
      />
      <small>site time, {zone()}</small>
      {faults.textAt(field)}
    </div>
  )
  const words = (field: 'reason' | 'alternatives', label: string, hint: string) => (
    <div class="layout-field wide">
      <label for={idOf(field)}>{label}</label>
      <textarea
        id={idOf(field)}
        {...faults.troubled(field)}
        required
        maxlength="1000"
        value={fields()[field]}
        onInput={(event) => change({ [field]: event.currentTarget.value })}
      />
      <small>{hint}</small>
      {faults.textAt(field)}
    </div>
  )

  return (
    <form class="verdict-form" onSubmit={(event) => void save(event)} aria-label="Verdict on readings">
      <div class="layout-field">
        <label for={idOf('series')}>About</label>
        <select
          id={idOf('series')}
          {...faults.troubled('series')}
          value={fields().series}
          onInput={(event) => change({ series: event.currentTarget.value })}
        >
          <For each={props.series}>
            {(one) => (
              <option value={one.id} selected={one.id === fields().series}>
                {one.point}, {measureNames[one.measure].toLowerCase()}
              </option>
            )}
          </For>
        </select>
        {faults.textAt('series')}
      </div>
      {instant('from', 'From')}
      <div class="layout-field">
        <label for={idOf('lasting')}>Lasts</label>
        <select
          id={idOf('lasting')}
          value={fields().lasting}
          onInput={(event) => change({ lasting: event.currentTarget.value as Lasting })}
        >
          <option value="until">until an instant</option>
          <option value="minute">that minute: one reading</option>
          <option value="on">no end yet</option>
        </select>
      </div>
      <Show when={fields().lasting === 'until'}>{instant('until', 'Until before')}</Show>
      <div class="verdict-covers" role="status" aria-label="What it covers">
        <For each={covers()}>{(sentence) => <p>{sentence}</p>}</For>
        <For each={asked.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      </div>
      <fieldset id={idOf('verdict')} tabindex="-1">
        <legend>What was found</legend>
        <div class="verdict-words">
          <For each={verdicts}>
            {(word) => (
              <label>
                <input
                  type="radio"
                  name={idOf('verdict')}
                  required
                  checked={fields().verdict === word}
                  onInput={() => change({ verdict: word })}
                />
                <VerdictShape verdict={word} />
                {word}
              </label>
            )}
          </For>
        </div>
        {faults.textAt('verdict')}
      </fieldset>
      {words('reason', 'Reason', 'the evidence for it; kept for good')}
      {words('alternatives', 'Also considered', 'other explanations, and why they were set aside')}
      <div class="layout-field">
        <label for={idOf('author')}>Your name</label>
        <input
          id={idOf('author')}
          {...faults.troubled('author')}
          type="text"
          required
          maxlength="200"
          value={fields().author}
          onInput={(event) => change({ author: event.currentTarget.value })}
        />
        {faults.textAt('author')}
      </div>
      <p>
        The readings stay drawn and held against levels. A later verdict overrides this one where they
        overlap.
      </p>
      {faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={saving()}>
          Save the verdict
        </button>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </form>
  )
}

const minuteMs = 60_000
const dayMs = 1440 * minuteMs
const mostRowsCounted = 40_000
