import { For } from 'solid-js'
import type { Verdict } from '#domain/site/tables.ts'
import { type VerdictReviewOutcome, verdictReviewOutcomes } from '#domain/site/verdict-words.ts'
import { sendServer } from '../../state/ask-server.ts'
import { showSaved, sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { announce } from '../../ui/announce.ts'
import { AuthorField } from '../signed/AuthorField.tsx'
import { createSignedForm } from '../signed/create-signed-form.ts'
import { FormField } from '../signed/FormField.tsx'
import { WordsField } from '../signed/WordsField.tsx'
import { secondLookDrafts } from '../verdict-drafts.ts'

const means: Readonly<Record<VerdictReviewOutcome, string>> = {
  reopened: 'reopened: it is in doubt and to be judged anew',
  upheld: 'upheld: it stands in spite of this',
}

/** Enters that a verdict was looked at again: reopened or upheld, by whom and why. It holds on until another record says otherwise. */
export function VerdictReviewForm(props: { verdict: Verdict; found: string; leave: () => void }) {
  const form = createSignedForm((column) =>
    column === 'reason' || column === 'found' || column === 'outcome' ? column : null,
  )
  const typed = () =>
    secondLookDrafts.of(props.verdict.id) ?? { outcome: '' as const, found: props.found, reason: '' }
  const change = (some: Partial<ReturnType<typeof typed>>) =>
    secondLookDrafts.keep(props.verdict.id, { ...typed(), ...some })
  const leave = (verdict: string) => {
    secondLookDrafts.leave(verdict)
    props.leave()
  }
  const save = async (author: string) => {
    const site = siteDocument()?.facts.id ?? ''
    const { id } = props.verdict
    const { outcome, found, reason } = typed()
    await sendServer(sitePath(site, '/verdicts/reviews'), {
      verdict: id,
      outcome: outcome === '' ? null : outcome,
      found,
      reason,
      author,
    })
    announce(`${id} is ${outcome}`)
    leave(id)
    showSaved(site)
  }
  return (
    <form
      class="verdict-form"
      onSubmit={form.submits(save)}
      aria-label={`Second look at ${props.verdict.id}`}
    >
      <FormField form={form} field="outcome" label="What comes of it" wide>
        <select
          id={form.idOf('outcome')}
          {...form.faults.troubled('outcome')}
          required
          value={typed().outcome}
          onInput={(event) => change({ outcome: event.currentTarget.value as VerdictReviewOutcome | '' })}
        >
          <option value="">choose</option>
          <For each={verdictReviewOutcomes}>
            {(one) => (
              <option value={one} selected={one === typed().outcome}>
                {means[one]}
              </option>
            )}
          </For>
        </select>
      </FormField>
      <WordsField
        form={form}
        field="found"
        label="What speaks against it"
        hint="as it was shown, or what else is known"
        wide
        mostCharacters={4000}
        value={typed().found}
        write={(found) => change({ found })}
      />
      <WordsField
        form={form}
        field="reason"
        label="Why"
        wide
        value={typed().reason}
        write={(reason) => change({ reason })}
      />
      <AuthorField form={form} />
      {form.faults.summary()}
      <div class="buttons">
        <button type="submit" class="primary" disabled={form.sending()}>
          Enter it
        </button>
        <button type="button" onClick={() => leave(props.verdict.id)}>
          Leave it
        </button>
      </div>
    </form>
  )
}
