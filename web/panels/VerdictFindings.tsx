import { For, Show } from 'solid-js'
import { causeMeans } from '#domain/review/cause.ts'
import {
  confidenceMeans,
  effectMeans,
  verdictCauses,
  verdictConfidences,
  verdictEffects,
} from '#domain/site/verdict-words.ts'
import type { SignedForm } from './signed/create-signed-form.ts'
import { FormField } from './signed/FormField.tsx'
import type { VerdictFields } from './verdict-fields.ts'

type Found = Pick<VerdictFields, 'cause' | 'confidence' | 'effects'>

/** What a verdict lays the readings on, how sure its author is, and what is to follow: each word with its meaning. */
export function VerdictFindings(props: {
  form: SignedForm<keyof VerdictFields>
  fields: Found
  change: (some: Partial<Found>) => void
}) {
  const meansCause = () => {
    const { cause } = props.fields
    if (cause === '') return 'a person chooses; nothing is proposed'
    return cause === 'not told apart' ? 'what is known does not tell them apart' : causeMeans[cause]
  }
  const meansConfidence = () => {
    const { confidence } = props.fields
    return confidence === '' ? 'how often such a finding would be right' : confidenceMeans[confidence]
  }
  return (
    <>
      <FormField form={props.form} field="cause" label="Laid on" hint={meansCause()}>
        <select
          id={props.form.idOf('cause')}
          {...props.form.faults.troubled('cause')}
          required
          value={props.fields.cause}
          onInput={(event) => props.change({ cause: event.currentTarget.value as Found['cause'] })}
        >
          <option value="">choose a cause</option>
          <For each={verdictCauses}>
            {(cause) => (
              <option value={cause} selected={cause === props.fields.cause}>
                {cause}
              </option>
            )}
          </For>
        </select>
      </FormField>
      <FormField form={props.form} field="confidence" label="How sure" hint={meansConfidence()}>
        <select
          id={props.form.idOf('confidence')}
          {...props.form.faults.troubled('confidence')}
          required
          value={props.fields.confidence}
          onInput={(event) => props.change({ confidence: event.currentTarget.value as Found['confidence'] })}
        >
          <option value="">choose how sure</option>
          <For each={verdictConfidences}>
            {(word) => (
              <option value={word} selected={word === props.fields.confidence}>
                {word}: {confidenceMeans[word]}
              </option>
            )}
          </For>
        </select>
      </FormField>
      <fieldset id={props.form.idOf('effects')} tabindex="-1">
        <legend>What follows (none or several; each only tells people)</legend>
        <div class="verdict-effects">
          <For each={verdictEffects}>
            {(effect) => (
              <label>
                <input
                  type="checkbox"
                  checked={props.fields.effects.includes(effect)}
                  onInput={(event) =>
                    props.change({
                      effects: event.currentTarget.checked
                        ? [...props.fields.effects, effect]
                        : props.fields.effects.filter((one) => one !== effect),
                    })
                  }
                />
                <span>
                  {effect} <small>{effectMeans[effect]}</small>
                </span>
              </label>
            )}
          </For>
        </div>
        <Show when={props.fields.effects.includes('level to be reviewed')}>
          <p>No level changes by this: a change of levels is proposed and approved on the Levels tab.</p>
        </Show>
        {props.form.faults.textAt('effects')}
      </fieldset>
    </>
  )
}
