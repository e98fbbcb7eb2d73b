import { For, Show } from 'solid-js'
import type { Oddity } from '#domain/review/oddity.ts'
import { startOfGround } from '#domain/review/rank-causes.ts'
import { reviewRules } from '#domain/review/review-rules.ts'

/** How the table comes about: every rule with its reason and its source. */
export function RulesExplained(props: { oddity: Oddity }) {
  const rules = () => reviewRules.filter(({ tells }) => tells.includes(props.oddity))
  return (
    <details class="review-rules">
      <summary>How this is weighed</summary>
      <p>
        A weight is ten times the logarithm of how many times likelier a finding is if the cause is the one
        than if it is not: +10 is ten to one, −10 one to ten. They are judged, not measured, and add up as if
        findings did not hang together. What was read begins with +{startOfGround} for the ground: it is real
        until shown otherwise.
      </p>
      <dl>
        <For each={rules()}>
          {(rule) => (
            <div>
              <dt>{rule.title}</dt>
              <dd>
                {rule.reason}{' '}
                <small>
                  <Show when={rule.source} fallback="Common practice, no published source.">
                    {rule.source}.
                  </Show>
                </small>
              </dd>
            </div>
          )}
        </For>
      </dl>
    </details>
  )
}
