import { createSignal, For, Show } from 'solid-js'
import type { OwnDevices as Devices, TestedDelivery } from '#contract/alert-delivery.ts'
import { askServer, changeServer, sendServer, sentenceOf } from '../../state/ask-server.ts'
import {
  lookAtPush,
  type PushStanding,
  stopTellingThisDevice,
  tellThisDevice,
} from '../../state/push-device.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import { AttemptList } from './AttemptList.tsx'

/** One's own devices that are told while the page is closed: this one, and the others. */
export function OwnDevices() {
  const [known, setKnown] = createSignal<Devices | null>(null)
  const [standing, setStanding] = createSignal<PushStanding | null>(null)
  const [tested, setTested] = createSignal<TestedDelivery | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const look = async () => {
    setStanding(await lookAtPush())
    setKnown(await askServer<Devices>('/api/me/devices'))
  }
  const during = async (task: () => Promise<unknown>) => {
    setTrouble(null)
    setTested(null)
    await task().catch((cause) => setTrouble(sentenceOf(cause)))
    await look().catch((cause) => setTrouble(sentenceOf(cause)))
  }
  const remove = (id: string) =>
    during(() => changeServer('DELETE', `/api/me/devices/${encodeURIComponent(id)}`))
  const test = () =>
    during(async () => setTested(await sendServer<TestedDelivery>('/api/me/devices/test', {})))
  void during(async () => undefined)
  return (
    <section aria-labelledby="own-devices">
      <h3 id="own-devices">Your devices</h3>
      <p>
        A device that is off, or that holds messages back to spare its battery, is told late or not at all. Do
        not rely on it alone.
      </p>
      <Show when={known()?.hindrance}>{(why) => <p>No device can be told by this server. {why()}</p>}</Show>
      <Show when={known()?.hindrance === null && standing()}>
        {(here) => (
          <ThisDevice
            standing={here()}
            tell={() => during(() => tellThisDevice(known()?.publicKey ?? ''))}
            stop={() => during(() => stopTellingThisDevice(known()?.devices ?? []))}
          />
        )}
      </Show>
      <Show when={(known()?.devices.length ?? 0) > 0}>
        <ul class="told-devices">
          <For each={known()?.devices}>
            {(one) => (
              <li>
                <span>
                  {one.isOfThisSession ? 'This device' : one.device || 'A device that says nothing of itself'}
                  , since {dayAndTime.format(one.madeAtEpochMs)}
                </span>
                <Show when={!one.isOfThisSession}>
                  <button type="button" onClick={() => remove(one.id)}>
                    Tell it no longer
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
        <button type="button" onClick={test}>
          Send a test to your devices
        </button>
      </Show>
      <AttemptList tested={tested()} />
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </section>
  )
}

function ThisDevice(props: { standing: PushStanding; tell: () => void; stop: () => void }) {
  const why = () => (props.standing.kind === 'cannot' ? props.standing.why : null)
  return (
    <Show when={why() === null} fallback={<p>This device is not told. {why()}</p>}>
      <Show
        when={props.standing.kind === 'on'}
        fallback={
          <p>
            This device is not told.{' '}
            <button type="button" onClick={() => props.tell()}>
              Tell this device
            </button>{' '}
            The browser will ask whether it may. What is sent also shows on a locked screen.
          </p>
        }
      >
        <p>
          This device is told of what is sent to you.{' '}
          <button type="button" onClick={() => props.stop()}>
            Tell it no longer
          </button>
        </p>
      </Show>
    </Show>
  )
}
