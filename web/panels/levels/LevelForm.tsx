import { createMemo, createSignal, Show } from 'solid-js'
import type { LevelPreview } from '#contract/level-proposals.ts'
import { withCombinations } from '#domain/levels/combinations-with.ts'
import type { LevelChange } from '#domain/levels/level-change.ts'
import { freeName } from '#domain/levels/levels-csv.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { sentenceOf } from '../../state/ask-server.ts'
import { selectedSeries } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNowEpochMs } from '../../state/site-now.ts'
import { sync } from '../../ui/sync.ts'
import { LevelText } from '../LevelText.tsx'
import type { Proposals } from './create-proposals.ts'
import { LevelFormFields } from './LevelFormFields.tsx'
import { LevelJudged } from './LevelJudged.tsx'
import { fieldsOfLevel, type LevelFields, levelOfFields } from './level-fields.ts'
import { SignProposal } from './SignProposal.tsx'

/** Typing rests so long before what is written is judged. */
const restMs = 700

/** Proposes a new level, or one in the place of another; what speaks against it stands below while one writes. */
export function LevelForm(props: { proposals: Proposals; level: TriggerLevel | null; done: () => void }) {
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
      <LevelFormFields fields={fields()} write={write} unread={unread} unit={unit()} />
      <LevelJudged
        level={levelRead(read())}
        unit={unit()}
        canTry={changes() !== null}
        preview={preview()}
        trouble={trouble()}
        working={working()}
        judge={(fromEpochMs) => void judge(fromEpochMs)}
      />
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
