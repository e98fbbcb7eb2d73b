import { For, Show } from 'solid-js'
import type { Analysis, Quantity } from '#domain/ground/analysis.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'

/** What an analysis found and rests on: figures with their errors, what was stated, what was left out and why. Its remarks stand under its drawing. */
export function AnalysisAccount(props: { account: Analysis<unknown>; nameOf: (item: never) => string }) {
  const name = (item: unknown) => props.nameOf(item as never)
  return (
    <section class="account" aria-label="What was found, and from what">
      <dl class="facts">
        <For each={props.account.found}>
          {(one) => (
            <div>
              <dt>{one.name}</dt>
              <dd>{quantityText(one)}</dd>
            </div>
          )}
        </For>
      </dl>
      <details class="record-more">
        <summary>
          Method; {props.account.used.length} used, {props.account.leftOut.length} left out
        </summary>
        <p>{props.account.method}</p>
        <dl class="facts">
          <For each={props.account.parameters}>
            {(one) => (
              <div>
                <dt>{one.name}</dt>
                <dd>{quantityText(one)}</dd>
              </div>
            )}
          </For>
        </dl>
        <p>Used: {props.account.used.map(name).join(', ')}.</p>
        <Show when={props.account.leftOut.length > 0}>
          <ul>
            <For each={props.account.leftOut}>
              {(one) => (
                <li>
                  {name(one.item)}: {one.reason}
                </li>
              )}
            </For>
          </ul>
        </Show>
      </details>
    </section>
  )
}

/** A figure with as many digits as its error leaves a meaning, and one more; four digits where no error is known. */
export function quantityText({ value, unit, standardError }: Quantity): string {
  if (standardError === null || !(standardError > 0)) return withUnit(fourDigits(value), unit)
  const decimals = Math.min(8, Math.max(0, 1 - Math.floor(Math.log10(standardError))))
  return withUnit(`${formatValue(value, decimals)} ± ${formatValue(standardError, decimals)}`, unit)
}

function fourDigits(value: number): string {
  if (!Number.isFinite(value)) return '–'
  const size = Math.abs(value)
  if (size !== 0 && (size < 1e-3 || size >= 1e6)) {
    const [digits = '', power = ''] = value.toExponential(3).split('e')
    return `${digits} × 10${[...String(Number(power))].map((sign) => raised[sign] ?? sign).join('')}`.replace(
      '-',
      '−',
    )
  }
  return formatValue(value, Math.max(0, 3 - Math.floor(Math.log10(size || 1))))
}

const raised: Readonly<Record<string, string>> = Object.fromEntries(
  [...'0123456789-'].map((sign, place) => [sign, [...'⁰¹²³⁴⁵⁶⁷⁸⁹⁻'][place] ?? sign]),
)
