import type { Analysis, LeftOut } from '#domain/ground/analysis.ts'
import type { Outcome } from '#domain/outcome.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureAxis, FigurePoint, FigureProps } from '../../views/figure/figure-props.ts'

/** What the page knows of a figure of an analysis. */
export interface AnalysisFigureOptions {
  /** Whole sentence. */
  readonly title: string
  readonly selected: string | null
  readonly timeZone: string
  /** Where stages of the works begin, told in figures of time. */
  readonly stages?: readonly { readonly name: string; readonly startsAtEpochMs: number }[]
}

export const axis = (name: string, unit: string, rest: Partial<FigureAxis> = {}): FigureAxis => ({
  name,
  unit,
  scale: 'even',
  reversed: false,
  decimals: 1,
  including: [],
  ...rest,
})

/** Settlement grows downwards. */
export const settlementAxis = axis('Settlement', 'mm', { reversed: true, including: [0] })

type Drawn = Partial<
  Pick<FigureProps, 'bands' | 'curves' | 'points' | 'rules' | 'table' | 'remarks' | 'message'>
>

/** A figure with what is drawn in it. */
export const figure = (
  { title, selected, timeZone, stages = [] }: AnalysisFigureOptions,
  axes: Pick<FigureProps, 'x' | 'y'>,
  { rules = [], ...drawn }: Drawn,
): FigureProps => ({
  title,
  ...axes,
  bands: [],
  curves: [],
  points: [],
  rules: [
    ...rules,
    ...(axes.x.scale === 'instant'
      ? stages.map(({ name, startsAtEpochMs }) => ({ across: 'x' as const, at: startsAtEpochMs, name }))
      : []),
  ],
  selected,
  timeZone,
  table: { caption: '', headings: [], rows: [] },
  remarks: [],
  message: null,
  ...drawn,
})

/** A figure of an outcome: of its value, or empty with every reason of the refusal, which no one can take for no movement. */
export function figureOf<T>(
  outcome: Outcome<T>,
  options: AnalysisFigureOptions,
  axes: Pick<FigureProps, 'x' | 'y'>,
  draw: (value: T) => Drawn,
): FigureProps {
  if (outcome.ok) return figure(options, axes, draw(outcome.value))
  const reasons = outcome.issues.map(({ message }) => message)
  return figure(options, axes, { message: 'Refused: nothing can be stated.', remarks: reasons })
}

/** Half of a bar of 95 %; null where the uncertainty is not known. */
export const halfBarOf = (standardUncertainty: number | null): number | null =>
  standardUncertainty === null || !Number.isFinite(standardUncertainty) ? null : 1.96 * standardUncertainty

/** A point that was used. */
export const usedPoint = (
  name: string,
  place: readonly [number, number],
  says: string,
  { choice = null, halfBar = null }: { choice?: string | null; halfBar?: number | null } = {},
): FigurePoint => ({ choice, name, place, halfBar, leftOut: false, says })

/** Points left out that have a place to be drawn at; the others stand in the table. */
export const leftOutPoints = <Item>(
  leftOut: readonly LeftOut<Item>[],
  nameOf: (item: Item) => string,
  placeOf: (item: Item) => readonly [number | null, number | null],
  choiceOf: (item: Item) => string | null = () => null,
): readonly FigurePoint[] =>
  leftOut.flatMap(({ item, reason }) => {
    const [x, y] = placeOf(item)
    if (x === null || y === null || !Number.isFinite(x) || !Number.isFinite(y)) return []
    const name = nameOf(item)
    const says = `${name === '' ? 'A reading' : name} is left out. ${reason}`
    return [{ choice: choiceOf(item), name, place: [x, y] as const, halfBar: null, leftOut: true, says }]
  })

/** What is said beneath: the method, then what it does not know. */
export const remarksOf = ({
  method,
  remarks,
}: Pick<Analysis<unknown>, 'method' | 'remarks'>): readonly string[] => [method, ...remarks]

export const cell = (value: number | null, decimals: number): string => formatValue(value, decimals)

/** Places from low to high, evenly. */
export const evenly = (low: number, high: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, at) => low + ((high - low) * at) / (count - 1))
