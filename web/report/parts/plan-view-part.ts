import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { doubtedOfSymbol } from '../../derived/doubted-of-symbol.ts'
import { filterSymbols } from '../../derived/filter-symbols.ts'
import type { PlanSymbol } from '../../derived/plan-symbols.ts'
import { knownOfSite, type ReportReadings, statesOfSite } from '../../derived/report/gather-readings.ts'
import { foundOfValues } from '../../derived/verdict-on-value.ts'
import type { AddressState } from '../../state/address-state.ts'
import { noFilters } from '../../state/filters.ts'
import type { PlanLayer } from '../../state/plan-layers.ts'
import { formatShare } from '../../ui/format-value.ts'
import { kindNames } from '../../ui/kind-names.ts'
import { standingName } from '../../ui/state-scale.ts'
import { planFigureFromSite } from '../../views/plan-figure/plan-figure-from-site.ts'
import { type Block, list, paragraph, type Table } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { planFigure, settlementDrawn, standingAlternative } from './plan-part.ts'
import { countWords, lengthWords, wordsOf } from './report-words.ts'

/** Layers of the page that paper does not have, in words. */
const notOnPaper: Partial<Record<PlanLayer, string>> = {
  water: 'the piezometric level',
  computed: 'computed settlement',
  delivery: 'delivery of readings',
  coverage: 'coverage tests',
  radio: 'radio links',
  notes: 'notes',
  neighbours: 'agreement with neighbours',
}

/**
 * The plan of a chosen view: at the clock of its address, never after the period, with its filters, names and settlement;
 * where only what had been received was to count, symbols stand as they did by that. Where a value came later there is an hourglass.
 * All of the site is shown, since how much of it a window showed is not kept; what is left out or not drawn is said.
 */
export async function planView(
  sources: ReportSources,
  readings: ReportReadings,
  state: AddressState,
  { caption, id }: { readonly caption: string; readonly id: string },
): Promise<readonly Block[]> {
  const { manifest, now } = sources
  const { site } = now
  const words = wordsOf(sources)
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!grid.ok) return [paragraph('The grid of the site cannot be read, so this plan is not drawn.')]
  const atEpochMs =
    state.clock === 'present' ? manifest.untilEpochMs : Math.min(state.clock, manifest.untilEpochMs)
  const known = isAsKnown(state)
  // Of a past instant the page marks what came later, whether or not it counts.
  const then = state.clock === 'present' ? null : await knownOfSite(sources, atEpochMs)
  const later = then?.later ?? null
  const states =
    known && then
      ? then.states
      : atEpochMs === manifest.untilEpochMs
        ? readings.atEnd
        : await statesOfSite(sources, atEpochMs)
  const settlement = wantsSettlement(state)
    ? await settlementDrawn(sources, grid.value, {
        atEpochMs,
        sinceEpochMs: state.layers.includes('change') ? state.changeFromEpochMs : null,
        method: state.surfaceMethod,
        aspect: state.surfaceAspect,
      })
    : null
  const plan = planFigureFromSite(site, states, {
    atEpochMs,
    later,
    showNames: state.layers.includes('labels'),
    surface: settlement?.drawing?.surface ?? null,
  })
  if (!plan.ok) return [paragraph(plan.issues.map(({ message }) => message).join(' '))]
  const symbols = filterSymbols(plan.value.symbols, state.filters, now.alerts.alerts)
  const props = { ...plan.value, symbols }
  const said = settlement?.drawing?.alternative ?? ''
  const figure = planFigure(
    props,
    `${caption || 'Plan'}, ${words.at(atEpochMs)}`,
    `${standingAlternative(props)} ${said}`.trim(),
  )
  return [
    { ...figure, tableId: id },
    list([
      filterSentence(state, symbols.length, plan.value.symbols.length, site.facts.levelNames),
      ...(later === null ? [] : [known ? knownSentence(later.size) : measuredSentence(later.size)]),
      ...layerSentences(state),
      ...(known && settlement?.drawing ? [`The settlement drawn: ${asMeasured}`] : []),
      ...(settlement?.sentences ?? []),
    ]),
    symbolTable(symbols, site.facts.levelNames, {
      found: (symbol) => doubtedOfSymbol(symbol, site, states, foundOfValues(site)),
      caption: `${caption || 'Plan'}: how what is shown stands`,
      id,
    }),
  ]
}

/** True for a view of a past instant at which only what had been received was to count. */
export const isAsKnown = ({ counting, clock }: Pick<AddressState, 'counting' | 'clock'>): boolean =>
  counting === 'known' && clock !== 'present'

/** Said of what such a view shows that cannot leave out what came later. */
export const asMeasured =
  'values count from when they were taken, as measured, including what came later, and not as they were known then.'

const knownSentence = (later: number): string =>
  later === 0
    ? 'Only what had been received by then counts: all up to a quarter of an hour before.'
    : `Only what had been received by then counts, up to a quarter of an hour before: ${countWords(later, 'series (hourglass) has', 'series (hourglass) have')} newer values that came later.`

const measuredSentence = (later: number): string =>
  later === 0
    ? 'Values count as measured; all had been received, or came within a quarter of an hour.'
    : `Values count as measured: ${countWords(later, 'series (hourglass) has a value that was taken', 'series (hourglass) have values that were taken')} by then and came later, not known then.`

const wantsSettlement = ({ layers, changeFromEpochMs }: AddressState): boolean =>
  layers.includes('contours') || (layers.includes('change') && changeFromEpochMs !== null)

function filterSentence(
  { filters }: AddressState,
  shown: number,
  all: number,
  levelNames: readonly string[],
): string {
  const { hiddenKinds, standings, text, openAlerts } = filters
  const by = [
    ...(hiddenKinds.length === 0 || isAsAtFirst(hiddenKinds)
      ? []
      : [`without ${hiddenKinds.map((kind) => kindNames[kind].toLowerCase()).join(', ')}`]),
    ...(standings.length === 0
      ? []
      : [`only ${standings.map((one) => standingName(one, levelNames).toLowerCase()).join(', ')}`]),
    ...(text.trim() === '' ? [] : [`names with “${text.trim()}”`]),
    ...(openAlerts ? ['with an alert that was open at the cut-off'] : []),
  ]
  const count = `${countWords(shown, 'symbol')} of ${all}`
  return by.length === 0 ? `${count} shown.` : `${count} shown, as the view was filtered: ${by.join('; ')}.`
}

/** What the page leaves out by itself nobody chose. */
const isAsAtFirst = (hidden: readonly string[]): boolean =>
  hidden.length === noFilters.hiddenKinds.length &&
  noFilters.hiddenKinds.every((kind) => hidden.includes(kind))

function layerSentences({ layers, changeFromEpochMs }: AddressState): readonly string[] {
  const left = layers.flatMap((layer) => notOnPaper[layer] ?? [])
  return [
    ...(left.length === 0 ? [] : [`Shown on the page and not on paper: ${left.join(', ')}.`]),
    ...(layers.includes('change') && changeFromEpochMs === null
      ? ['No instant was chosen that a change would count from: none is drawn.']
      : []),
  ]
}

function symbolTable(
  symbols: readonly PlanSymbol[],
  levelNames: readonly string[],
  {
    caption,
    id,
    found,
  }: { readonly caption: string; readonly id: string; readonly found: (symbol: PlanSymbol) => string },
): Table {
  return {
    block: 'table',
    id,
    caption,
    columns: [
      { head: 'Shown' },
      { head: 'Kind' },
      { head: 'State' },
      { head: 'Of its first level' },
      { head: 'Age of its oldest reading' },
    ],
    // What presses most first, as a reader asks.
    rows: symbols
      .toReversed()
      .map((symbol) => [
        symbol.id,
        kindNames[symbol.kind],
        stateWords(symbol, levelNames, found(symbol)),
        formatShare(symbol.share) || '–',
        symbol.ageMs === null ? 'none' : lengthWords(symbol.ageMs),
      ]),
  }
}

/** How what a symbol stands for stands, with all that the page says beside it. */
function stateWords(
  { standing, partLate, allLate, noLevel, channels, outOfUse, cameLater }: PlanSymbol,
  levelNames: readonly string[],
  found: string,
): string {
  return [
    standingName(standing, levelNames),
    allLate && standing !== 'late' ? 'no current data' : partLate ? 'part without current data' : '',
    noLevel === 0 || noLevel === channels ? '' : `${noLevel} of its ${channels} channels without a level`,
    outOfUse === 0 || standing === 'out-of-use' ? '' : `${outOfUse} of its channels out of use`,
    cameLater ? 'a value of it came later' : '',
    found,
  ]
    .filter((part) => part !== '')
    .join(', ')
}
