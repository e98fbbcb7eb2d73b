/** One axis of a figure. */
export interface FigureAxis {
  readonly name: string
  /** UCUM code; empty for a pure number. */
  readonly unit: string
  /** `instant`: values are epoch milliseconds, shown on the site's clock. `decades`: drawn by logarithm. */
  readonly scale: 'even' | 'decades' | 'instant'
  /** Larger values below or to the left: settlement, depth. */
  readonly reversed: boolean
  /** Decimals of values in words and in the table. */
  readonly decimals: number
  /** Values that must be on the axis whatever is drawn, such as 0. */
  readonly including: readonly number[]
}

type Place = readonly [x: number, y: number]

/** How a thing is drawn; no two differ by colour alone. */
export type FigureStyle = 'measured' | 'fitted' | 'predicted' | 'earlier' | 'limit' | 'order'

export interface FigureCurve {
  readonly name: string
  readonly style: FigureStyle
  /** A null breaks the line. */
  readonly places: readonly (Place | null)[]
}

/** A strip between two curves: an interval around one of them. */
export interface FigureBand {
  readonly name: string
  readonly places: readonly (readonly [x: number, low: number, high: number])[]
}

export interface FigurePoint {
  /** What pressing it selects; null where there is nothing to select. */
  readonly choice: string | null
  readonly name: string
  readonly place: Place
  /** Half the length of its bar; null for none. */
  readonly halfBar: number | null
  /** Half the length of its bar along x; left out or null for none. */
  readonly halfBarAcross?: number | null
  /** When it was read among all, 0 first to 1 last: the later the darker. Left out: not told. */
  readonly shade?: number
  /** The first or last in time, marked as such. */
  readonly end?: 'start' | 'end'
  /** Left out of what is computed: drawn hollow with a stroke through it. */
  readonly leftOut: boolean
  /** Whole sentence. */
  readonly says: string
}

/** A line across the figure at one value. */
export interface FigureRule {
  readonly across: 'x' | 'y'
  readonly at: number
  readonly name: string
}

/** A figure as plain data: what any analysis draws, and the table that says the same. */
export interface FigureProps {
  /** Whole sentence; named to a screen reader. */
  readonly title: string
  readonly x: FigureAxis
  readonly y: FigureAxis
  readonly bands: readonly FigureBand[]
  readonly curves: readonly FigureCurve[]
  readonly points: readonly FigurePoint[]
  readonly rules: readonly FigureRule[]
  readonly selected: string | null
  readonly timeZone: string
  readonly table: {
    readonly caption: string
    readonly headings: readonly string[]
    readonly rows: readonly (readonly string[])[]
  }
  readonly remarks: readonly string[]
  /** Said over an empty pane: what is awaited, or why there is nothing. */
  readonly message: string | null
  /** What light and dark points mean; left out where none are shaded. */
  readonly shadeKey?: string
}

export interface FigureEvents {
  readonly onChoose: (choice: string) => void
}

export interface FigureSize {
  readonly widthPixels: number
  readonly heightPixels: number
  readonly fontPixels: number
}
