import { createSignal, onCleanup, Show } from 'solid-js'
import type { Attachment } from '#domain/field/field-entry.ts'
import { fieldDatabase } from '../../offline/field-database.ts'
import { megabytes } from '../../offline/keep-site.ts'
import { sitePath } from '../../state/open-site.ts'
import { sync } from '../../ui/sync.ts'

/** Pictures that the server gives as pictures; anything else is a file to be taken. */
const drawable = /^image\/(jpeg|png|webp)$/

/** A photo in its place, or a file by its name: from this device while it waits here, else from the server. */
export function AttachedFile(props: { attachment: Attachment; site: string }) {
  const [local, setLocal] = createSignal<string | null>(null)
  const [failed, setFailed] = createSignal(false)
  const address = () => local() ?? sitePath(props.site, `/attachments/${props.attachment.sha256}`)
  sync(
    () => props.attachment,
    ({ sha256, mediaType }) => {
      let made: string | null = null
      let ended = false
      fieldDatabase()
        .then((database) => database.get('attachments', sha256))
        .then((kept) => {
          if (!kept || ended) return
          made = URL.createObjectURL(new Blob([kept.bytes], { type: mediaType }))
          setLocal(made)
          setFailed(false)
        })
        .catch(() => undefined)
      return () => {
        ended = true
        setLocal(null)
        if (made !== null) URL.revokeObjectURL(made)
      }
    },
  )
  onCleanup(() => setLocal(null))
  const size = () => `${props.attachment.name}, ${megabytes(props.attachment.bytes)}`
  return (
    <Show
      when={drawable.test(props.attachment.mediaType) && !failed()}
      fallback={
        <p class="entry-facts">
          <a href={address()} download={props.attachment.name}>
            {size()}
          </a>
          {failed()
            ? ': cannot be shown now. The server did not give it: it does not answer, or the photo has not arrived from the device that took it.'
            : ''}
        </p>
      }
    >
      <figure>
        <a href={address()} target="_blank" rel="noopener">
          <img
            src={address()}
            alt={`Attached: ${props.attachment.name}`}
            loading="lazy"
            onError={() => setFailed(true)}
          />
        </a>
        <figcaption>{size()}</figcaption>
      </figure>
    </Show>
  )
}
