import type { InstrumentKind } from '#domain/site/vocabulary.ts'
import type { Palette } from './palettes.ts'
import type { Standing } from './state-scale.ts'
import { symbolSvg } from './symbol-markup.ts'
import { symbols } from './symbols.ts'

/** The symbol of a kind in its state, as the plan draws it. Its meaning stands beside it in words. */
export function KindSymbol(props: {
  kind: InstrumentKind
  standing: Standing
  share: number | null
  partLate: boolean
  levels: number
  palette: Palette
  size: number
  /** A value of it came later than the instant. */
  cameLater?: boolean
}) {
  const markup = () =>
    symbolSvg(
      symbols[props.kind],
      {
        standing: props.standing,
        share: props.share,
        partLate: props.partLate,
        levels: props.levels,
        cameLater: props.cameLater === true,
      },
      props.palette,
      props.size,
    )
  // The markup is our own, made of numbers and palette colours; no text from outside reaches it.
  return <span class="symbol" innerHTML={markup()} />
}
