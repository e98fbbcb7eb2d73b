import { createMemo, For, Show } from 'solid-js'
import { groundLevelMetres } from '#domain/radio/ground-level.ts'
import { radioSiteOf } from '../../derived/radio/radio-site-of.ts'
import { planTool, takePlanTool } from '../../state/plan-tool.ts'
import {
  type PlannedGateway,
  planGateway,
  plannedGateway,
  plannedObstruction,
} from '../../state/radio-plan.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { NumberField } from '../ground/NumberField.tsx'
import { ChangeTable } from './ChangeTable.tsx'
import { StudyShown } from './StudyShown.tsx'
import { WantedFields } from './WantedFields.tsx'

/** What moving or raising a gateway, or one more, would gain. */
export function GatewaysPage() {
  return (
    <section class="network-page" aria-label="Gateways">
      <p>Choose a gateway, move or raise it, and see what each logger would deliver.</p>
      <WantedFields />
      <GatewayFields />
      <Show when={plannedObstruction()}>
        <p class="trouble">An obstruction is planned too: both changes count.</p>
      </Show>
      <Show when={plannedGateway()} fallback={<p class="waiting">No gateway is planned elsewhere yet.</p>}>
        <StudyShown>{(study) => <ChangeTable study={study()} />}</StudyShown>
        <p class="key-note">
          A moved gateway keeps the fit of its old place, and one more takes that of all spots: near a mast,
          what stands around it decides. Prove it with a test from the new place before the old one is taken
          down.
        </p>
      </Show>
    </section>
  )
}

const oneMore = 'one more'

function GatewayFields() {
  const site = createMemo(() => {
    const [document, grid] = [siteDocument(), siteGrid()]
    return document && grid ? radioSiteOf(document, grid) : null
  })
  const choose = (id: string) => {
    const known = site()?.gateways.find((one) => one.id === id)
    const first = site()?.gateways[0]
    if (id === '') planGateway(null)
    else if (known) planGateway({ ...known })
    else if (first) planGateway({ ...first, id: oneMore })
  }
  return (
    <>
      <div class="network-fields">
        <label class="network-field">
          Gateway
          <select value={plannedGateway()?.id ?? ''} onChange={(event) => choose(event.currentTarget.value)}>
            <option value="">choose …</option>
            <For each={site()?.gateways ?? []}>{({ id }) => <option value={id}>{id}</option>}</For>
            <option value={oneMore}>One more</option>
          </select>
        </label>
        <Show when={plannedGateway()}>
          {(gateway) => <PlaceFields gateway={gateway()} groundOf={() => groundBelow(gateway())} />}
        </Show>
      </div>
      <Show when={plannedGateway()}>
        <div class="network-buttons">
          <button
            type="button"
            class="primary"
            aria-pressed={planTool() === 'gateway'}
            onClick={() => takePlanTool(planTool() === 'gateway' ? null : 'gateway')}
          >
            {planTool() === 'gateway' ? 'Tapping on the plan …' : 'Tap its new place on the plan'}
          </button>
          <button type="button" onClick={() => planGateway(null)}>
            Leave it where it is
          </button>
        </div>
      </Show>
    </>
  )

  function groundBelow({ eastingMetres, northingMetres }: PlannedGateway): number | null {
    const [known, at] = [site(), clockEpochMs()]
    return known && at !== null ? groundLevelMetres(known.ground, [eastingMetres, northingMetres], at) : null
  }
}

function PlaceFields(props: { gateway: PlannedGateway; groundOf: () => number | null }) {
  const height = () => {
    const ground = props.groundOf()
    return ground === null
      ? ''
      : `${(props.gateway.levelMetres - ground).toFixed(1)} m above the ground there`
  }
  return (
    <>
      <NumberField
        name="Easting"
        unit="m"
        value={props.gateway.eastingMetres}
        onChange={(eastingMetres) => planGateway({ ...props.gateway, eastingMetres })}
      />
      <NumberField
        name="Northing"
        unit="m"
        value={props.gateway.northingMetres}
        onChange={(northingMetres) => planGateway({ ...props.gateway, northingMetres })}
      />
      <NumberField
        name="Level of its antenna"
        unit="m"
        value={props.gateway.levelMetres}
        least={-100}
        most={500}
        onChange={(levelMetres) => planGateway({ ...props.gateway, levelMetres })}
      />
      <p class="key-note">{height()}</p>
    </>
  )
}
