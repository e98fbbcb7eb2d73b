import { createMemo, createRoot } from 'solid-js'
import { deliveryDrawing } from '../derived/radio/delivery-drawing.ts'
import { obstructionOf } from '../derived/radio/planned-obstruction.ts'
import { networkStudy } from './network-study.ts'
import { isLayerShown } from './plan-layers.ts'
import { plannedGateway, plannedObstruction } from './radio-plan.ts'
import { siteGrid } from './site-grid.ts'

/** Predicted delivery, while its layer is shown and it has been worked out. */
export const deliveryShown = createRoot(() =>
  createMemo(() => {
    const [grid, cells] = [siteGrid(), networkStudy()?.grid]
    return grid && cells && isLayerShown('delivery') ? deliveryDrawing(cells, grid.toLngLat) : null
  }),
)

/** A planned obstruction and gateway where they would stand; null where nothing is planned. */
export const plannedShown = createRoot(() =>
  createMemo(() => {
    const [grid, gateway] = [siteGrid(), plannedGateway()]
    const obstruction = obstructionOf(plannedObstruction())
    if (!grid || (!obstruction && !gateway)) return null
    return {
      obstruction: (obstruction?.outline ?? []).map((corner) => grid.toLngLat(corner)),
      gateway: gateway && {
        at: grid.toLngLat([gateway.eastingMetres, gateway.northingMetres]),
        name: gateway.id,
      },
    }
  }),
)
