import { createSignal, For } from 'solid-js'
import type { SuppressionDraft } from '#domain/suppression/draft-suppression.ts'
import { sendServer } from '../../state/ask-server.ts'
import { refreshDuties } from '../../state/duties.ts'
import { sitePath } from '../../state/open-site.ts'
import { selectedInstrument } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'
import { LineField } from '../signed/LineField.tsx'
import { SignedEnd } from '../signed/SignedEnd.tsx'
import { WordsField } from '../signed/WordsField.tsx'

type Field = 'covers' | 'name' | 'until' | 'reason'

const fieldOfColumn: Readonly<Record<string, Field>> = {
  covers: 'covers',
  name: 'name',
  untilEpochMs: 'until',
  reason: 'reason',
}

const coversNames = {
  instrument: 'an instrument',
  series: 'a series',
  level: 'one trigger level',
  logger: 'a logger',
} as const satisfies Record<SuppressionDraft['covers'], string>

/** Holds sending back from now on, for a reason and until an instant. */
export function SuppressionForm(props: { zone: string; atEpochMs: number; leave: () => void }) {
  const form = createSignedForm((column) => fieldOfColumn[column])
  const [covers, setCovers] = createSignal<SuppressionDraft['covers']>('instrument')
  const [name, setName] = createSignal(selectedInstrument()?.id ?? '')
  const [until, setUntil] = createSignal(toLocalField(props.atEpochMs + 86_400_000, props.zone))
  const [reason, setReason] = createSignal('')
  const names = (): readonly string[] => {
    const site = siteDocument()
    if (!site) return []
    const listed = {
      instrument: site.instruments,
      series: site.series,
      level: site.triggerLevels,
      logger: site.loggers,
    }
    return listed[covers()].map(({ id }) => id)
  }
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const [of, end] = [name(), until()]
    await sendServer(sitePath(site, '/suppressions'), {
      covers: covers(),
      name: of,
      untilEpochMs: fromLocalField(end, props.zone),
      reason: reason(),
      author,
    })
    announce(`Alerts of ${of} are not sent until ${end.replace('T', ' ')}`)
    props.leave()
    void refreshDuties(site)
  }
  return (
    <form class="verdict-form" onSubmit={form.submits(save)} aria-label="Hold something back">
      <FormField form={form} field="covers" label="Alerts of">
        <select
          id={form.idOf('covers')}
          {...form.faults.troubled('covers')}
          value={covers()}
          onInput={(event) => {
            setCovers(event.currentTarget.value as SuppressionDraft['covers'])
            setName('')
          }}
        >
          <For each={Object.entries(coversNames)}>
            {([value, words]) => <option value={value}>{words}</option>}
          </For>
        </select>
      </FormField>
      <LineField
        form={form}
        field="name"
        label="Its name"
        mostCharacters={200}
        first
        list={form.idOf('names')}
        value={name()}
        write={setName}
      >
        <datalist id={form.idOf('names')}>
          <For each={names()}>{(one) => <option value={one} />}</For>
        </datalist>
      </LineField>
      <LineField
        form={form}
        field="until"
        label="Until"
        type="datetime-local"
        hint={`site time, ${props.zone}; 14 days at most`}
        value={until()}
        write={setUntil}
      />
      <WordsField
        form={form}
        field="reason"
        label="Reason"
        hint="why nobody is to be told; kept for good"
        wide
        value={reason()}
        write={setReason}
      />
      <SignedEnd form={form} to="change-records" leave={props.leave}>
        Hold back from now
      </SignedEnd>
    </form>
  )
}
