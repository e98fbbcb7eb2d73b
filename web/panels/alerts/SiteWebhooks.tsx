import { createSignal, For, Show } from 'solid-js'
import type { AlertDelivery, GivenSecret } from '#contract/alert-delivery.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { dayAndTime } from '../../ui/day-and-time.ts'
import { sync } from '../../ui/sync.ts'
import { MailTest } from './MailTest.tsx'
import { WebhookForm } from './WebhookForm.tsx'
import { WebhookRow } from './WebhookRow.tsx'

/** Mail and webhooks of a site, for its administrators. */
export function SiteWebhooks(props: { site: string; siteName: string }) {
  const [known, setKnown] = createSignal<AlertDelivery | null>(null)
  const [given, setGiven] = createSignal<GivenSecret | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const path = () => sitePath(props.site, '/webhooks')
  const look = () => askServer<AlertDelivery>(path()).then(setKnown, (cause) => setTrouble(sentenceOf(cause)))
  /** Makes a change and shows what holds afterwards, whether it was taken or not. */
  const change = async (task: () => Promise<void>) => {
    setTrouble(null)
    await task().catch((cause) => setTrouble(sentenceOf(cause)))
    await look()
  }
  const nameOf = (id: string) => known()?.webhooks.find((one) => one.id === id)?.name ?? ''
  sync(path, () => void look())
  return (
    <section aria-labelledby="site-webhooks">
      <h3 id="site-webhooks">Mail and webhooks of {props.siteName}</h3>
      <Show when={known()} fallback={<p>Asking the server …</p>}>
        {(delivery) => (
          <>
            <p>{mailSentence(delivery().mail)}</p>
            <Show when={delivery().mail}>
              <MailTest site={props.site} />
            </Show>
            <Show when={given()}>
              {(secret) => (
                <p class="given-secret" role="status">
                  Give this to the receiver {nameOf(secret().id)}; it is not shown again:{' '}
                  <code>{secret().given}</code>
                  <Show when={secret().earlierEndsAtEpochMs}>
                    {(at) => <> Until {dayAndTime.format(at())} the one before signs too.</>}
                  </Show>
                </p>
              )}
            </Show>
            <ul class="webhook-list">
              {/* By id, so that a row keeps what it shows when the list is asked for again. */}
              <For each={delivery().webhooks.map(({ id }) => id)} fallback={<li>No webhook yet.</li>}>
                {(id) => (
                  <Show when={delivery().webhooks.find((one) => one.id === id)}>
                    {(webhook) => (
                      <WebhookRow
                        webhook={webhook()}
                        path={`${path()}/${encodeURIComponent(id)}`}
                        change={change}
                        given={setGiven}
                      />
                    )}
                  </Show>
                )}
              </For>
            </ul>
            <WebhookForm
              path={path()}
              made={(secret) => {
                setGiven(secret)
                void look()
              }}
            />
          </>
        )}
      </Show>
      <Show when={trouble()}>
        <p class="trouble" role="alert">
          {trouble()}
        </p>
      </Show>
    </section>
  )
}

function mailSentence(mail: AlertDelivery['mail']): string {
  if (mail === null)
    return 'No mail is sent: whoever runs the server sets STILLGROUND_SMTP_URL and STILLGROUND_MAIL_FROM.'
  const how = mail.isEncrypted ? 'encrypted' : 'not encrypted unless that server offers it'
  return `Mail is sent from ${mail.from} by ${mail.server}, ${how}. That a server took it does not say that anybody read it.`
}
