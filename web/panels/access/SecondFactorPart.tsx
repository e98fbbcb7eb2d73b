import encodeQR from 'qr'
import { createSignal, For, Match, Show, Switch } from 'solid-js'
import type { NewSecondFactor, OwnKeys, RecoveryCodes } from '#contract/access-keys.ts'
import { changeServer, sendServer } from '../../state/ask-server.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import type { Change } from './create-changed.ts'

/** Codes besides the password: set up by a picture or a typed key, confirmed by a code, removed with the password. */
export function SecondFactorPart(props: { keys: OwnKeys; change: Change }) {
  const [begun, setBegun] = createSignal<NewSecondFactor | null>(null)
  const [codes, setCodes] = createSignal<readonly string[]>([])
  const typed = (event: SubmitEvent, name: string) => {
    event.preventDefault()
    return String(new FormData(event.currentTarget as HTMLFormElement).get(name))
  }
  const begin = (event: SubmitEvent) => {
    const password = typed(event, 'password')
    void props.change(async () =>
      setBegun(await sendServer<NewSecondFactor>('/api/me/second-factor', { password })),
    )
  }
  const confirm = (event: SubmitEvent) => {
    const code = typed(event, 'code')
    void props.change(async () => {
      const { recoveryCodes } = await changeServer<RecoveryCodes>('PUT', '/api/me/second-factor', { code })
      setCodes(recoveryCodes)
      setBegun(null)
    })
  }
  const remove = (event: SubmitEvent) => {
    const password = typed(event, 'password')
    void props.change(async () => {
      await changeServer('DELETE', '/api/me/second-factor', { password })
      setCodes([])
    })
  }
  return (
    <section aria-label="Second factor">
      <h3>Second factor</h3>
      <Show when={codes().length > 0}>
        <div role="status">
          <p>
            Signing in now asks for a code. These recovery codes let you in without the app, each once. They
            are not shown again: write them down and keep them apart from the device.
          </p>
          <ul class="recovery-codes">
            <For each={codes()}>
              {(code) => (
                <li>
                  <code>{code}</code>
                </li>
              )}
            </For>
          </ul>
        </div>
      </Show>
      <Switch>
        <Match when={props.keys.secondFactor}>
          {(factor) => (
            <>
              <p>
                Signing in asks for a code, since {dayAndTime.format(factor().confirmedAtEpochMs)}.{' '}
                {factor().recoveryCodesLeft} recovery codes are left; for new ones remove the second factor
                and set it up again.
              </p>
              <form class="access-form" onSubmit={remove}>
                <PasswordField />
                <button type="submit">Remove the second factor</button>
              </form>
            </>
          )}
        </Match>
        <Match when={begun()}>
          {(shared) => (
            <form class="access-form" onSubmit={confirm}>
              <p>Scan this with an app for one-time codes, or type the key into it. It is not shown again.</p>
              <img
                class="second-factor-picture"
                src={picture(shared().uri)}
                alt="Key for the app, as below"
              />
              <code class="invitation-link">
                {shared()
                  .key.match(/.{1,4}/g)
                  ?.join(' ')}
              </code>
              <label>
                Code that the app shows now
                <input name="code" inputmode="numeric" autocomplete="one-time-code" required />
              </label>
              <button type="submit" class="primary">
                Ask for codes from now on
              </button>
            </form>
          )}
        </Match>
        <Match when={props.keys.secondFactorOffered}>
          <form class="access-form" onSubmit={begin}>
            <p>With one, signing in also asks for a code of an app on your phone.</p>
            <PasswordField />
            <button type="submit">Set up a second factor</button>
          </form>
        </Match>
      </Switch>
    </section>
  )
}

const PasswordField = () => (
  <label>
    Your password
    <input name="password" type="password" autocomplete="current-password" required />
  </label>
)

const picture = (uri: string) =>
  `data:image/svg+xml;charset=utf-8,${encodeURIComponent(encodeQR(uri, 'svg', { ecc: 'medium', border: 4 }))}`
