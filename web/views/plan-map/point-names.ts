import type { FeatureCollection, Point } from 'geojson'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { concernOf, levelOf } from '../../ui/state-scale.ts'

/**
 * Names beside the symbols; late ones always carry their age, even where names are switched off. On a board, where they are
 * large, only the selected one, those at a level with its number, and late ones are named.
 * The map leaves out names that would overlap, least concern first; `level` parts those at a level from the others.
 */
export function pointNames(
  symbols: readonly PlanSymbol[],
  showNames: boolean,
  board: { readonly selectedId: string | null } | null = null,
): { readonly signature: string; readonly features: FeatureCollection<Point> } {
  const texts = symbols.map((symbol) =>
    board ? boardText(symbol, board.selectedId) : textOf(symbol, showNames),
  )
  return {
    signature: symbols
      .map((symbol, place) => `${symbol.id}${texts[place]}${symbol.standing}${symbol.critical ?? false}`)
      .join('|'),
    features: {
      type: 'FeatureCollection',
      features: symbols.map((symbol, place) => {
        const text = texts[place] ?? ''
        return {
          type: 'Feature',
          geometry: { type: 'Point', coordinates: [symbol.longitude, symbol.latitude] },
          properties: { text, level: levelOf(symbol.standing), order: -weightOf(symbol) },
        }
      }),
    },
  }
}

/** Who is named first where there is no room for all: the highest level, lower ones, silence, what is critical, the rest. */
function weightOf({ standing, critical }: PlanSymbol): number {
  const concern = concernOf(standing)
  return critical ? Math.max(concern, concernOf('late') - 0.5) : concern
}

function boardText(symbol: PlanSymbol, selectedId: string | null): string {
  const level = levelOf(symbol.standing)
  if (level > 0) return `${symbol.id}\nLevel ${level}${symbol.partLate ? `, ${ageOf(symbol)}` : ''}`
  // Silence must not look calm from five metres either.
  if (symbol.standing === 'late') return textOf(symbol, true)
  return symbol.id === selectedId ? symbol.id : ''
}

function textOf(symbol: PlanSymbol, showNames: boolean): string {
  const late = symbol.standing === 'late' || symbol.partLate
  if (late) return `${symbol.id}\n${ageOf(symbol)}`
  if (!showNames) return ''
  return symbol.standing === 'out-of-use' ? `${symbol.id}\nout of use` : symbol.id
}

const ageOf = ({ ageMs }: PlanSymbol): string => (ageMs === null ? 'no reading' : `${formatAge(ageMs)} old`)
