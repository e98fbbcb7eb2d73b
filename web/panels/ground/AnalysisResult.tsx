import { For, Show } from 'solid-js'
import type { Analysis } from '#domain/ground/analysis.ts'
import { selectPoint } from '../../state/selection.ts'
import { Figure } from '../../views/figure/Figure.tsx'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { AnalysisAccount } from './AnalysisAccount.tsx'

/** Figures of an analysis with what each rests on; a refusal is told in its figure, and has no account. */
export function AnalysisResult<Item>(props: {
  figures: readonly FigureProps[]
  accounts: readonly { readonly heading: string; readonly account: Analysis<Item> }[]
  nameOf: (item: Item) => string
}) {
  return (
    <>
      <div class="ground-figures">
        <For each={props.figures.map((_, place) => place)}>
          {(place) => <TitledFigure shown={() => props.figures[place] as FigureProps} />}
        </For>
      </div>
      <For each={props.accounts}>
        {({ heading, account }) => (
          <>
            <Show when={props.accounts.length > 1}>
              <h2>{heading}</h2>
            </Show>
            <AnalysisAccount of={heading} account={account} nameOf={(item) => props.nameOf(item as Item)} />
          </>
        )}
      </For>
    </>
  )
}

/** A drawing with its title above it, which says of what, where and when it is. */
export function TitledFigure(props: { shown: () => FigureProps }) {
  return (
    <figure class="titled-figure">
      <figcaption>{props.shown().title}</figcaption>
      <Figure shown={props.shown} onChoose={(point) => selectPoint(point)} />
    </figure>
  )
}
