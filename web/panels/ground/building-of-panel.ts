import { createMemo, createSignal } from 'solid-js'
import { gaussianTrough } from '#domain/ground/trough.ts'
import { buildingResponse } from '#domain/ground/troughs/building-response.ts'
import { troughAcross } from '#domain/ground/troughs/trough-across.ts'
import { accept } from '#domain/outcome.ts'
import { buildingFigure } from '../../derived/figures/building-figures.ts'
import { busiestChainage } from '../../derived/ground/alignment-of-drive.ts'
import { buildingsBeside } from '../../derived/ground/building-wall.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { createDrive } from './drive-of-panel.ts'

/** A building beside a tunnel with the trough under it, as recorded and fitted until a person states otherwise. */
export function createBuilding(tunnel: ReturnType<typeof createDrive>) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const buildings = createMemo(() => {
    const [document, grid, on] = [siteDocument(), siteGrid(), tunnel.alignment()]
    return document && grid && on
      ? buildingsBeside(document.works, grid, (point) => on.stationOf(point), tunnel.reachMetres())
      : []
  })
  const [wanted, choose] = createSignal<string | null>(null)
  const building = () => buildings().find(({ id }) => id === wanted()) ?? buildings()[0] ?? null
  const [expected, setExpected] = createSignal(false)
  const [within, setWithin] = createSignal(6)
  const [chainage, setChainage] = createSignal<number | null>(null)
  /** Where most points stand across the line beside the building. */
  const chainageMetres = createMemo(() => {
    const [on, points, at] = [tunnel.alignment(), tunnel.points(), building()]
    if (chainage() !== null || !on || !points || !at) return chainage() ?? 0
    const near = points.filter(({ eastingMetres, northingMetres }) => {
      const along = on.stationOf([eastingMetres, northingMetres])?.chainageMetres ?? Number.NaN
      return along >= at.fromChainageMetres && along <= at.toChainageMetres
    })
    return (
      busiestChainage(on, near, within()) ?? Math.round((at.fromChainageMetres + at.toChainageMetres) / 2)
    )
  })
  const [height, setHeight] = createSignal<number | null>(null)
  const heightMetres = () => height() ?? building()?.heightMetres ?? 0
  const [stiffnessRatio, setStiffnessRatio] = createSignal(2.6)
  const trough = createMemo(() => {
    const [on, places] = [tunnel.alignment(), tunnel.places()]
    if (!on || !places) return null
    if (expected()) return accept({ shape: gaussianTrough(tunnel.drive()), middleMetres: 0 })
    const found = troughAcross(places, (point) => on.stationOf(point), {
      chainageMetres: chainageMetres(),
      withinMetres: within(),
      pointDepthMetres: 0,
      drive: tunnel.drive(),
    })
    if (!found.ok) return found
    const { fitted } = found.value
    return accept({ shape: fitted.trough, middleMetres: fitted.centreOffsetMetres.value })
  })
  const shown = createMemo(() => {
    const [over, on] = [trough(), building()]
    if (!over || !on) return null
    const response = over.ok
      ? buildingResponse(over.value.shape, tunnel.drive().axisDepthMetres, {
          id: on.name,
          fromOffsetMetres: on.fromOffsetMetres - over.value.middleMetres,
          toOffsetMetres: on.toOffsetMetres - over.value.middleMetres,
          heightMetres: heightMetres(),
          stiffnessRatio: stiffnessRatio(),
        })
      : over
    const ground = over.ok ? over.value.shape : gaussianTrough(tunnel.drive())
    const of = expected()
      ? 'over the expected trough'
      : `over the trough of chainage ${formatValue(chainageMetres(), 0)} m, ${formatShortInstant(tunnel.sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`
    return {
      figure: buildingFigure(response, ground, {
        title: `${on.name} ${of}`,
        selected: null,
        timeZone: zone(),
      }),
      accounts: response.ok ? [{ heading: 'Building', account: response.value }] : [],
    }
  })
  return {
    buildings,
    building,
    choose(id: string) {
      choose(id)
      setHeight(null)
      setChainage(null)
    },
    expected,
    setExpected,
    within,
    setWithin,
    chainageMetres,
    setChainage,
    heightMetres,
    setHeight,
    stiffnessRatio,
    setStiffnessRatio,
    shown,
  }
}
