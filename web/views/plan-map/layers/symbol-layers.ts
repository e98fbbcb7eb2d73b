import type { Layer } from '@deck.gl/core'
import { IconLayer, ScatterplotLayer, TextLayer } from '@deck.gl/layers'
import type { PlanSymbol } from '../../../derived/plan-symbols.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { standingColour } from '../../../ui/state-scale.ts'
import { type AtlasIcon, arcIcon, symbolIcon } from '../symbol-atlas.ts'

export interface SymbolLayerProps {
  readonly symbols: readonly PlanSymbol[]
  readonly selectedId: string | null
  readonly levels: number
  readonly palette: Palette
  readonly atlas: ImageBitmap
  readonly icons: Readonly<Record<string, AtlasIcon>>
  readonly sizePixels: number
  readonly leastTextPixels: number
  readonly beforeId: string
}

/** Measuring points: ring of the selection, arc of the share of the first level used, symbol, count. */
export function symbolLayers(props: SymbolLayerProps): Layer[] {
  const { symbols, palette, levels, sizePixels, beforeId } = props
  const position = (symbol: PlanSymbol): [number, number] => [symbol.longitude, symbol.latitude]
  const icons = {
    iconAtlas: props.atlas as never,
    iconMapping: props.icons as never,
    sizeUnits: 'pixels' as const,
  }
  const gathered = symbols.filter((symbol) => symbol.points.length > 1)
  const selected = symbols.filter((symbol) => symbol.id === props.selectedId)
  const drawn = { beforeId, parameters: { depthCompare: 'always' as const } }
  const drawSymbols = (prefix: string, list: readonly PlanSymbol[]): Layer[] => {
    const withShare = list.filter((symbol) => symbol.share !== null && symbol.standing !== 'late')
    return [
      new IconLayer<PlanSymbol>({
        ...drawn,
        ...icons,
        id: `${prefix}arc-tracks`,
        data: withShare,
        getPosition: position,
        getIcon: () => 'arc-track',
        getSize: sizePixels,
        getColor: toRgba(palette.inkSoft, 110),
      }),
      new IconLayer<PlanSymbol>({
        ...drawn,
        ...icons,
        id: `${prefix}arcs`,
        data: withShare,
        getPosition: position,
        getIcon: (symbol) => arcIcon(symbol.share ?? 0),
        getSize: sizePixels,
        getColor: (symbol) => toRgba(standingColour(symbol.standing, levels, palette) ?? palette.ink),
        updateTriggers: { getColor: [palette, levels] },
      }),
      new IconLayer<PlanSymbol>({
        ...drawn,
        ...icons,
        id: `${prefix}symbols`,
        data: list,
        getPosition: position,
        getIcon: (symbol) => symbolIcon(symbol.kind, symbol.standing, symbol.partLate),
        getSize: sizePixels,
      }),
      new IconLayer<PlanSymbol>({
        ...drawn,
        ...icons,
        id: `${prefix}came-later`,
        data: list.filter((symbol) => symbol.cameLater),
        getPosition: position,
        getIcon: () => 'came-later',
        getSize: sizePixels,
      }),
    ]
  }
  return [
    ...drawSymbols('', symbols),
    // Above its neighbours: where points lie close, the selected one must not be the one that is hidden.
    new ScatterplotLayer<PlanSymbol>({
      ...drawn,
      id: 'selection-ring',
      data: selected,
      getPosition: position,
      getRadius: sizePixels * 0.62,
      radiusUnits: 'pixels',
      filled: true,
      stroked: true,
      getFillColor: toRgba(palette.focus, 60),
      getLineColor: toRgba(palette.focus),
      lineWidthUnits: 'pixels',
      getLineWidth: 3,
    }),
    ...drawSymbols('selected-', selected),
    new TextLayer<PlanSymbol>({
      ...drawn,
      id: 'counts',
      // Large text beside every string would hide its neighbours.
      data: sizePixels >= 36 && props.leastTextPixels === 0 ? gathered : [],
      getPosition: position,
      getText: (symbol) => `×${symbol.points.length}`,
      getSize: 11,
      getColor: toRgba(palette.ink),
      getPixelOffset: [sizePixels * 0.34, sizePixels * 0.36],
      background: true,
      getBackgroundColor: toRgba(palette.sheet, 235),
      backgroundPadding: [2, 0],
      fontFamily: 'system-ui, sans-serif',
      fontWeight: 600,
      characterSet: '×0123456789',
      updateTriggers: { getPixelOffset: sizePixels },
    }),
  ]
}
