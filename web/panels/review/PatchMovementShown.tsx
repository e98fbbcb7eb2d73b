import { For, Show } from 'solid-js'
import type { PatchMember, PatchMovement } from '#domain/review/patch-movement.ts'
import { unitSymbol } from '#domain/units.ts'
import { withInterval } from '../../derived/review/interval-text.ts'
import { patchFigure } from '../../derived/review/patch-figure.ts'
import { siteDocument } from '../../state/site-document.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { Figure } from '../../views/figure/Figure.tsx'
import type { PatchFound } from './create-patch-review.ts'
import { openReviewOf } from './open-review-of.ts'

const standsWords: Readonly<Record<PatchMember['stands'], string>> = {
  with: '● moved with most',
  against: '◆ moved the other way',
  alone: '◆ moved by itself',
  still: '■ no movement told',
  'cannot-say': '? too few readings',
}

/** What the series of a patch share, and what is left of each. */
export function PatchMovementShown(props: { found: PatchFound }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const what = () => {
    const [first] = props.found.asked.subjects
    return first ? measureNames[first.measure] : ''
  }
  return (
    <Show
      when={props.found.movement}
      fallback={
        <p class="review-finding">
          Fewer than three series here have eight values or more in this stretch: what they share cannot be
          told from what each does by itself.
        </p>
      }
    >
      {(movement) => (
        <section aria-label="Common movement">
          <h3>What they share</h3>
          <For each={movement().sentences}>{(sentence) => <p>{sentence}</p>}</For>
          <div class="patch-drawing">
            <Figure
              shown={() =>
                patchFigure(movement(), what(), zone(), props.found.asked.subjects[0]?.decimals ?? 2)
              }
              onChoose={() => undefined}
            />
          </div>
          <MemberTable movement={movement()} />
        </section>
      )}
    </Show>
  )
}

function MemberTable(props: { movement: PatchMovement }) {
  const unit = () => unitSymbol(props.movement.unit)
  return (
    <section class="scroll-across" aria-label="Series of the patch" tabindex="0">
      <table class="plain neighbours">
        <caption>
          Common change {intervalOf(props.movement.commonChange)} {unit()}, 95 %
        </caption>
        <thead>
          <tr>
            <th scope="col">Series</th>
            <th scope="col">Stands</th>
            <th scope="col">Its movement, {unit()}</th>
            <th scope="col">Left beside the common one, {unit()}</th>
            <th scope="col">Goes with the others</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.movement.members}>
            {({ trace, stands, movement, residual, correlation }) => (
              <tr>
                <th scope="row">
                  <button type="button" onClick={() => openReviewOf(trace.series)}>
                    {trace.point}
                  </button>
                </th>
                <td>{standsWords[stands]}</td>
                <td>
                  {movement === null || movement.kind === 'none'
                    ? '–'
                    : withInterval(
                        movement.size,
                        movement.size - 1.96 * movement.standardError,
                        movement.size + 1.96 * movement.standardError,
                      )}
                </td>
                <td>{intervalOf(residual)}</td>
                <td>
                  {correlation === null
                    ? 'cannot be told'
                    : withInterval(correlation.correlation, correlation.interval[0], correlation.interval[1])}
                </td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  )
}

const intervalOf = (one: PatchMovement['commonChange']): string =>
  one === null ? '–' : withInterval(one.change, one.interval[0], one.interval[1])
