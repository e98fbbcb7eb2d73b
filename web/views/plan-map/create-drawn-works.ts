import type * as maplibregl from 'maplibre-gl'
import { wellFeatures } from '../../derived/well-marks.ts'
import { lineLeaves, middleOf, namesCutOff } from './names-within.ts'
import type { PlanMapProps } from './plan-map-props.ts'
import { namesSource, wellsSource, worksSource } from './plan-sources.ts'
import { pointNames } from './point-names.ts'
import { phaseSignature, worksAt } from './works-phases.ts'
import { isWorksLayer, isWorksNameLayer } from './works-style.ts'

/** What the map's own style draws: works, wells and names, given anew only where they changed. */
export function createDrawnWorks(map: maplibregl.Map) {
  let drawnWorks = ''
  let drawnWells: PlanMapProps['wells'] | null = null
  let drawnNames = ''
  let cutNames = ''
  let worksNameFilters: ReadonlyMap<string, ReturnType<maplibregl.Map['getFilter']>> = new Map()

  /** The style was loaded anew, with nothing given to it yet. */
  function forget(): void {
    drawnWorks = ''
    drawnWells = null
    drawnNames = ''
    cutNames = ''
    worksNameFilters = new Map(
      map
        .getStyle()
        .layers.filter(({ id }) => isWorksNameLayer(id) && id !== 'worksname-well')
        .map(({ id }) => [id, map.getFilter(id)]),
    )
  }

  function giveWorks(props: PlanMapProps): void {
    const signature = `${props.site}${phaseSignature(props.works, props.atEpochMs)}`
    if (signature !== drawnWorks) {
      drawnWorks = signature
      map.getSource<maplibregl.GeoJSONSource>(worksSource)?.setData(worksAt(props.works, props.atEpochMs))
    }
    if (props.grid && props.wells !== drawnWells) {
      drawnWells = props.wells
      map.getSource<maplibregl.GeoJSONSource>(wellsSource)?.setData(wellFeatures(props.wells, props.grid))
    }
    for (const { id } of map.getStyle().layers) {
      const shown = isWorksLayer(id) ? props.showWorks : isWorksNameLayer(id) ? props.showNames : null
      const wanted = shown ? 'visible' : 'none'
      if (shown !== null && (map.getLayoutProperty(id, 'visibility') ?? 'visible') !== wanted) {
        map.setLayoutProperty(id, 'visibility', wanted)
      }
    }
  }

  function giveNames(props: PlanMapProps): void {
    const names = pointNames(props.symbols, props.showNames, props.isBoard ? props : null)
    if (names.signature === drawnNames) return
    drawnNames = names.signature
    map.getSource<maplibregl.GeoJSONSource>(namesSource)?.setData(names.features)
  }

  /** On a board half a name at the edge is none. */
  function leaveCutNames(props: PlanMapProps): void {
    if (!props.isBoard || worksNameFilters.size === 0) return
    const [width, height] = [map.getContainer().clientWidth, map.getContainer().clientHeight]
    const pixels = (at: { readonly longitude: number; readonly latitude: number }) => {
      const { x, y } = map.project([at.longitude, at.latitude])
      return { x, y }
    }
    const names = props.works.features.flatMap((feature) => {
      const middle = middleOf(feature.geometry)
      return middle
        ? {
            name: feature.properties.name,
            ...pixels(middle),
            leaves: lineLeaves(feature.geometry, pixels, width, height),
          }
        : []
    })
    const cut = namesCutOff(names, width, height, props.leastTextPixels)
    if (cut.join('|') === cutNames) return
    cutNames = cut.join('|')
    for (const [id, filter] of worksNameFilters) {
      const own = filter as maplibregl.ExpressionSpecification
      map.setFilter(id, ['all', own, ['!', ['in', ['get', 'name'], ['literal', [...cut]]]]])
    }
  }

  return {
    forget,
    give(props: PlanMapProps): void {
      giveWorks(props)
      giveNames(props)
    },
    leaveCutNames,
  }
}
