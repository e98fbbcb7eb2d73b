import { Show } from 'solid-js'
import type { OwnKeys } from '#contract/access-keys.ts'
import { askServer } from '../../state/ask-server.ts'
import { createChanged } from './create-changed.ts'
import { ModalSheet } from './ModalSheet.tsx'
import { OtherSessions } from './OtherSessions.tsx'
import { OwnPasswordForm } from './OwnPasswordForm.tsx'
import { PasskeysPart } from './PasskeysPart.tsx'
import { SecondFactorPart } from './SecondFactorPart.tsx'

/** By what one signs in: password, second factor, passkeys. */
export function KeysSheet(props: { closed: () => void }) {
  const { known: keys, troubles, change } = createChanged(() => askServer<OwnKeys>('/api/me/keys'))
  return (
    <ModalSheet name="Password, codes and passkeys" troubles={troubles()} closed={props.closed}>
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
    </ModalSheet>
  )
}
