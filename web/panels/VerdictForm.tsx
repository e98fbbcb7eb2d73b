import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { WeighedEvidence } from '#domain/site/verdict-evidence.ts'
import { verdicts } from '#domain/site/vocabulary.ts'
import { timeHistory } from '../queries/time-history.ts'
import { sendServer } from '../state/ask-server.ts'
import { showSaved, sitePath } from '../state/open-site.ts'
import { rememberedName } from '../state/own-name.ts'
import { clockEpochMs, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { measureNames } from '../ui/kind-names.ts'
import { sync } from '../ui/sync.ts'
import { historyTraces } from '../views/time-history/history-from-site.ts'
import type { HistoryStretch } from '../views/time-history/history-props.ts'
import { tallyStretch } from '../views/time-history/stretch-tally.ts'
import { createAnswer } from './create-answer.ts'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { FormField } from './signed/FormField.tsx'
import { LineField } from './signed/LineField.tsx'
import { WordsField } from './signed/WordsField.tsx'
import { stretchSentences } from './stretch-sentences.ts'
import { VerdictFindings } from './VerdictFindings.tsx'
import { VerdictShape } from './VerdictShape.tsx'
import { aboutSeries, verdictDrafts } from './verdict-drafts.ts'
import {
  draftOfVerdict,
  fieldOfIssue,
  type Lasting,
  nothingFound,
  stretchFields,
  stretchOfDraft,
  type VerdictFields,
} from './verdict-fields.ts'

/** A verdict on a stretch of readings to enter: what it covers is told before it is saved, and what is typed is kept till then. */
export function VerdictForm(props: {
  /** Series to choose from; the first is proposed. */
  series: readonly Series[]
  /** A stretch that was dragged out in the drawing; the fields follow it. */
  dragged?: HistoryStretch | null
  /** Told what the fields say, while they say a stretch. */
  proposes?: (stretch: HistoryStretch | null) => void
  /** The evidence that was looked at, kept with the verdict as it stands now; null: none was. */
  evidence?: WeighedEvidence | null
  saved: () => void
  leave: () => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const about = aboutSeries(props.series)
  const until = Math.floor((clockEpochMs() ?? spanEpochMs().untilEpochMs) / minuteMs) * minuteMs + minuteMs
  // The last day, or as far back as there is planned to be a reading.
  const proposedMs = Math.max(dayMs, 2 * minuteMs * (props.series[0]?.intervalMinutes ?? 0))
  const [fields, setFields] = createSignal<VerdictFields>(
    verdictDrafts.of(about) ?? {
      series: props.series[0]?.id ?? '',
      ...stretchFields({ fromEpochMs: until - proposedMs, untilEpochMs: until }, zone()),
      verdict: '',
      reason: '',
      alternatives: '',
      author: rememberedName(),
      ...nothingFound,
    },
  )
  sync(fields, (typed) => verdictDrafts.keep(about, typed))
  const change = (some: Partial<VerdictFields>) => setFields((now) => ({ ...now, ...some }))
  const form = createSignedForm(fieldOfIssue, [() => fields().author, (author) => change({ author })])
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

  // Evidence about another series is not this verdict's.
  const kept = () => (fields().series === props.series[0]?.id ? (props.evidence ?? null) : null)
  const keptSentence = () => {
    const evidence = kept()
    return evidence
      ? `The evidence as known at ${formatShortInstant(evidence.untilEpochMs, zone())}, ${evidence.lines.length} lines with their figures, is kept with it (rules of ${evidence.rulesVersion}).`
      : 'No evidence table is kept with it: enter it from the Review tab to keep the one that you look at.'
  }

  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const { series } = fields()
    await sendServer(sitePath(site, '/verdicts'), {
      ...draft(),
      ...(kept() ? { evidence: kept() } : {}),
      author,
    })
    announce(`The verdict on ${series} is saved`)
    verdictDrafts.leave(about)
    props.saved()
    showSaved(site)
  }

  const instant = (field: 'from' | 'until', label: string) => (
    <LineField
      form={form}
      field={field}
      label={label}
      type="datetime-local"
      hint={`site time, ${zone()}`}
      value={fields()[field]}
      write={(text) => change({ [field]: text })}
    />
  )
  const words = (field: 'reason' | 'alternatives', label: string, hint: string) => (
    <WordsField
      form={form}
      field={field}
      label={label}
      hint={hint}
      wide
      value={fields()[field]}
      write={(text) => change({ [field]: text })}
    />
  )

  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Verdict on readings">
      <FormField form={form} field="series" label="About">
        <select
          id={form.idOf('series')}
          {...form.faults.troubled('series')}
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
      </FormField>
      {instant('from', 'From')}
      <FormField form={form} field="lasting" label="Lasts">
        <select
          id={form.idOf('lasting')}
          value={fields().lasting}
          onInput={(event) => change({ lasting: event.currentTarget.value as Lasting })}
        >
          <option value="until">until an instant</option>
          <option value="minute">that minute: one reading</option>
          <option value="on">no end yet</option>
        </select>
      </FormField>
      <Show when={fields().lasting === 'until'}>{instant('until', 'Until before')}</Show>
      <div class="verdict-covers" role="status" aria-label="What it covers">
        <For each={covers()}>{(sentence) => <p>{sentence}</p>}</For>
        <For each={asked.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      </div>
      <fieldset id={form.idOf('verdict')} tabindex="-1">
        <legend>What was found</legend>
        <div class="verdict-words">
          <For each={verdicts}>
            {(word) => (
              <label>
                <input
                  type="radio"
                  name={form.idOf('verdict')}
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
        {form.faults.textAt('verdict')}
      </fieldset>
      <VerdictFindings form={form} fields={fields()} change={change} />
      {words('reason', 'Reason', 'the evidence for it; kept for good')}
      {words('alternatives', 'Also considered', 'other explanations, and why they were set aside')}
      <p>{keptSentence()}</p>
      <AuthorField form={form} />
      <p>
        The readings stay drawn and held against levels. A later verdict overrides this one where they
        overlap.
      </p>
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Save the verdict
        </button>
        <button
          type="button"
          onClick={() => {
            verdictDrafts.leave(about)
            props.leave()
          }}
        >
          Leave it
        </button>
      </div>
    </form>
  )
}

const minuteMs = 60_000
const dayMs = 1440 * minuteMs
const mostRowsCounted = 40_000
