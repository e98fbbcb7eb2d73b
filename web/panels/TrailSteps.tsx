import { For, Show } from 'solid-js'
import type { TrailStep } from '#contract/trail.ts'
import { withUnit } from '../ui/format-value.ts'
import { numberText, resultText, uncertaintyText } from './trail-numbers.ts'

/** TrailSteps of a computation, each with its formula and its numbers. */
export function TrailSteps(props: { steps: readonly TrailStep[] }) {
  return (
    <ol class="trail-steps">
      <For each={props.steps}>
        {(step) => (
          <li>
            <span>{step.sentence}</span>
            <code>{step.formula}</code>
            <span class="trail-numbers">
              {withUnit(numberText(step.input), step.inputUnit)} →{' '}
              {withUnit(resultText(step.output, step.standardUncertainty), step.outputUnit)}
              <Show when={step.standardUncertainty !== null}>
                {' '}
                ± {uncertaintyText(step.standardUncertainty)}
              </Show>
            </span>
          </li>
        )}
      </For>
    </ol>
  )
}
