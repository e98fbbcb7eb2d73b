import { createMemo, createSignal } from 'solid-js'
import { recordedDrive } from '../../derived/ground/alignment-of-drive.ts'
import { asSettledPlaces, placesWithin } from '../../derived/ground/settled-places.ts'
import { siteAlignments } from '../../state/alignments.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createSettledPlaces } from './settled-places.ts'

/** A tunnel that an analysis is about, as recorded until a person states otherwise, and what settled beside it. */
export function createDrive() {
  const [chosen, choose] = createSignal<string | null>(null)
  const alignment = () => siteAlignments().find(({ id }) => id === chosen()) ?? siteAlignments()[0] ?? null
  const recorded = createMemo(() => {
    const [document, on] = [siteDocument(), alignment()]
    return document && on ? recordedDrive(document.works, on.id, document.facts.groundLevelMetres ?? 0) : null
  })
  const [since, setSince] = createSignal<number | null>(null)
  const sinceEpochMs = () => since() ?? recorded()?.fromEpochMs ?? (clockEpochMs() ?? 0) - 28 * 86_400_000
  const { places: points, remarks, waiting } = createSettledPlaces(sinceEpochMs)
  const [diameter, setDiameter] = createSignal<number | null>(null)
  const [axisDepth, setAxisDepth] = createSignal<number | null>(null)
  const [lossPercent, setLossPercent] = createSignal(1)
  const [widthParameter, setWidthParameter] = createSignal(0.5)
  const drive = () => ({
    diameterMetres: diameter() ?? recorded()?.diameterMetres ?? 3,
    axisDepthMetres: axisDepth() ?? recorded()?.axisDepthMetres ?? 10,
    volumeLoss: lossPercent() / 100,
    widthParameter: widthParameter(),
  })
  const [reach, setReach] = createSignal<number | null>(null)
  /** Three widths of the expected trough. */
  const reachMetres = () => reach() ?? Math.ceil(3 * widthParameter() * drive().axisDepthMetres)
  const places = createMemo(() => {
    const [on, known] = [alignment(), points()]
    return on && known ? placesWithin(asSettledPlaces(known), on.stationOf, reachMetres()) : null
  })
  return {
    alignment,
    choose,
    recorded,
    sinceEpochMs,
    setSince,
    drive,
    setDiameter,
    setAxisDepth,
    lossPercent,
    setLossPercent,
    setWidthParameter,
    reachMetres,
    setReach,
    /** Every levelled point. */
    points,
    /** Those within reach of the line. */
    places,
    remarks,
    waiting,
  }
}

export type DriveOfPanel = ReturnType<typeof createDrive>
