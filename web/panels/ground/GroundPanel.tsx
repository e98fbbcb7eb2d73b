import { For, Match, Switch } from 'solid-js'
import {
  chooseAnalysis,
  type GroundAnalysis,
  groundAnalyses,
  groundAnalysis,
} from '../../state/ground-analysis.ts'
import { asMeasured } from '../as-measured.ts'
import { BuildingAnalysis } from './BuildingAnalysis.tsx'
import { DrawdownAnalysis } from './DrawdownAnalysis.tsx'
import { DriveAnalysis } from './DriveAnalysis.tsx'
import { FacadeAnalysis } from './FacadeAnalysis.tsx'
import { FinalSettlementAnalysis } from './FinalSettlementAnalysis.tsx'
import { LayersAnalysis } from './LayersAnalysis.tsx'
import { MovementAnalysis } from './MovementAnalysis.tsx'
import { PairAnalysis } from './PairAnalysis.tsx'
import { SeriesAnalysis } from './SeriesAnalysis.tsx'
import { SurfaceAnalysis } from './SurfaceAnalysis.tsx'
import { TroughAnalysis } from './TroughAnalysis.tsx'
import { UpliftAnalysis } from './UpliftAnalysis.tsx'
import { WallAnalysis } from './WallAnalysis.tsx'
import { WaterAnalysis } from './WaterAnalysis.tsx'
import './ground.css'

/** What the readings say of the ground between and below the points, one analysis at a time. */
export function GroundPanel() {
  return (
    <div class="ground-panel">
      <label class="ground-choice">
        Analysis
        <select
          value={groundAnalysis()}
          onChange={(event) => chooseAnalysis(event.currentTarget.value as GroundAnalysis)}
        >
          <For each={groundAnalyses}>{(one) => <option value={one}>{analysisNames[one]}</option>}</For>
        </select>
      </label>
      <p class="trouble">
        What is drawn here is worked out from the readings by the methods named; it does not replace the
        judgement of the responsible engineer, local codes or the design.
      </p>
      <For each={asMeasured()}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
      <Switch>
        <Match when={groundAnalysis() === 'trough'}>
          <TroughAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'drive'}>
          <DriveAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'building'}>
          <BuildingAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'pair'}>
          <PairAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'facade'}>
          <FacadeAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'wall'}>
          <WallAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'final'}>
          <FinalSettlementAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'layers'}>
          <LayersAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'water'}>
          <WaterAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'drawdown'}>
          <DrawdownAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'series'}>
          <SeriesAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'surface'}>
          <SurfaceAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'uplift'}>
          <UpliftAnalysis />
        </Match>
        <Match when={groundAnalysis() === 'movement'}>
          <MovementAnalysis />
        </Match>
      </Switch>
    </div>
  )
}

const analysisNames: Readonly<Record<GroundAnalysis, string>> = {
  trough: 'Settlement trough across a tunnel',
  drive: 'Volume loss along a tunnel',
  building: 'Building over a tunnel’s trough',
  pair: 'Between two points',
  facade: 'Façade by its levelled points',
  wall: 'Wall deflection and the ground behind',
  final: 'Final settlement of a point',
  layers: 'Settlement from pore pressures',
  water: 'Gradient of the water in a stratum',
  drawdown: 'Drawdown of pumped wells, Theis and measured',
  uplift: 'Uplift below an excavation',
  movement: 'Velocity of a movement',
  series: 'Trend, steps and outliers of a series',
  surface: 'Surface that the plan shows',
}
