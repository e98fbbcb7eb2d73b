import { createSignal, For, Show } from 'solid-js'
import type { OwnKeys } from '#contract/access-keys.ts'
import { askServer } from '../../state/ask-server.ts'
import { OtherSessions } from './OtherSessions.tsx'
import { OwnPasswordForm } from './OwnPasswordForm.tsx'
import { PasskeysPart } from './PasskeysPart.tsx'
import { SecondFactorPart } from './SecondFactorPart.tsx'
import { sentencesOf } from './sentences-of.ts'
import './access.css'

/** By what one signs in: password, second factor, passkeys. */
export function KeysSheet(props: { closed: () => void }) {
  const [keys, setKeys] = createSignal<OwnKeys | null>(null)
  const [troubles, setTroubles] = createSignal<readonly string[]>([])
  const ask = async () => setKeys(await askServer<OwnKeys>('/api/me/keys'))
  /** Makes a change and shows what holds afterwards, whether it was taken or not. True: it was. */
  const change = async (task: () => Promise<unknown>): Promise<boolean> => {
    setTroubles([])
    const taken = await task().then(
      () => true,
      (cause) => {
        setTroubles(sentencesOf(cause))
        return false
      },
    )
    await ask().catch((cause) => setTroubles(sentencesOf(cause)))
    return taken
  }
  void change(ask)
  return (
    <dialog
      class="key-sheet people-sheet"
      aria-label="Password, codes and passkeys"
      ref={(dialog) => queueMicrotask(() => dialog.isConnected && dialog.showModal())}
      onClose={() => props.closed()}
    >
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <h2>Password, codes and passkeys</h2>
      <For each={troubles()}>
        {(trouble) => (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        )}
      </For>
      <Show when={keys()} fallback={<p>Asking the server …</p>}>
        {(known) => (
          <>
            <OwnPasswordForm change={change} />
            <SecondFactorPart keys={known()} change={change} />
            <PasskeysPart keys={known()} change={change} />
            <OtherSessions keys={known()} change={change} />
          </>
        )}
      </Show>
    </dialog>
  )
}
