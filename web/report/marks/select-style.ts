import type { FigureScope } from '../document.ts'
import { type MarkStyle, plainClasses, rulesOf } from './style-rules.ts'

/** A mark as rules see it: its tag and classes, and those of what holds it. */
export interface Place {
  readonly tag: string
  readonly classes: readonly string[]
  readonly within: Place | null
  /** The same for places that no rule can tell apart. */
  readonly key: string
}

export function placeOf(tag: string, className: string, within: Place | null): Place {
  return {
    tag,
    classes: className.split(/\s+/).filter(Boolean),
    within,
    key: `${within?.key ?? ''}>${tag}.${className}`,
  }
}

interface Part {
  readonly tag: string | null
  readonly classes: readonly string[]
  readonly without: readonly string[]
}

type Selector = readonly Part[]

export interface StyleSheet {
  /** What the rules give to a mark at its place, later rules over earlier ones. */
  readonly styleAt: (place: Place) => MarkStyle
  readonly knows: (className: string) => boolean
}

/** The style sheet of a view's drawings, its selectors read once. */
export function openStyleSheet(scope: FigureScope): StyleSheet {
  const kept = sheets.get(scope)
  if (kept) return kept
  const rules = rulesOf(scope).map(([selectors, style]) => ({ selectors: readSelectors(selectors), style }))
  const classes = new Set(
    rules.flatMap(({ selectors }) => selectors.flatMap((parts) => parts.flatMap((part) => part.classes))),
  )
  const styles = new Map<string, MarkStyle>()
  const sheet = {
    styleAt: (place: Place): MarkStyle => {
      const known = styles.get(place.key)
      if (known) return known
      const style: MarkStyle = Object.assign(
        {},
        ...rules
          .filter(({ selectors }) => selectors.some((selector) => matches(selector, place)))
          .map((rule) => rule.style),
      )
      styles.set(place.key, style)
      return style
    },
    knows: (name: string) => classes.has(name) || plainClasses.has(name),
  }
  sheets.set(scope, sheet)
  return sheet
}

const sheets = new Map<FigureScope, StyleSheet>()

/** Reads `a.b:not(.c) .d, .e`. */
function readSelectors(text: string): Selector[] {
  return text.split(',').map((selector) => selector.trim().split(/\s+/).map(readPart))
}

function readPart(text: string): Part {
  const without = [...text.matchAll(/:not\(\.([\w-]+)\)/g)].map((found) => found[1] as string)
  const rest = text.replace(/:not\([^)]*\)/g, '')
  return {
    tag: /^[a-z]+/i.exec(rest)?.[0] ?? null,
    classes: [...rest.matchAll(/\.([\w-]+)/g)].map((found) => found[1] as string),
    without,
  }
}

function matches(selector: Selector, place: Place): boolean {
  const last = selector.at(-1)
  if (!last || !isAt(last, place)) return false
  let left = selector.length - 2
  for (let holder = place.within; holder && left >= 0; holder = holder.within)
    if (isAt(selector[left] as Part, holder)) left--
  return left < 0
}

const isAt = (part: Part, place: Place): boolean =>
  (part.tag === null || part.tag === place.tag) &&
  part.classes.every((name) => place.classes.includes(name)) &&
  !part.without.some((name) => place.classes.includes(name))
