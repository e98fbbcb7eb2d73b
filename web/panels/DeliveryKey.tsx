import { For, Show } from 'solid-js'
import { deliveryClasses, deliveryNote } from '../derived/radio/delivery-drawing.ts'
import { networkStudy, networkTrouble } from '../state/network-study.ts'
import { shownFactor, shownGateway } from '../state/radio-plan.ts'

/** What the shades of predicted delivery mean, and what they rest on. */
export function DeliveryKey() {
  return (
    <>
      <div class="delivery-key">
        <For each={deliveryClasses}>
          {({ name, darkness }) => (
            <span class="key-row">
              <span class="delivery-shade" style={{ '--darkness': `${100 * darkness}%` }} />
              <span>{name}</span>
            </span>
          )}
        </For>
      </div>
      <p class="key-note">
        <Show
          when={networkStudy()?.grid && networkStudy()}
          fallback={networkTrouble() ?? 'Predicted delivery is being worked out.'}
        >
          {(study) => <>{deliveryNote(study(), shownFactor(), shownGateway())}</>}
        </Show>
      </p>
    </>
  )
}
