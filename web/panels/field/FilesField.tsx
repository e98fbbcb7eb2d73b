import { createSignal, For, Show } from 'solid-js'
import { megabytes } from '../../offline/keep-site.ts'
import { largestFileBytes, smallerPhoto } from '../../offline/smaller-photo.ts'

/** Photos and files that go with an entry. A photo too large to be sent becomes a smaller copy, and it is said. */
export function FilesField(props: { files: readonly File[]; onChange: (files: readonly File[]) => void }) {
  const [remarks, setRemarks] = createSignal<readonly string[]>([])
  const take = async (list: FileList | null) => {
    const said: string[] = []
    const taken: File[] = []
    for (const file of list ?? []) {
      if (file.size <= largestFileBytes) {
        taken.push(file)
        continue
      }
      const smaller = await smallerPhoto(file).catch(() => null)
      if (smaller) {
        taken.push(smaller)
        said.push(
          `${file.name} has ${megabytes(file.size)}, more than is sent at once: a copy of ${megabytes(smaller.size)} goes with the entry. Keep the original.`,
        )
      } else
        said.push(
          `${file.name} has ${megabytes(file.size)}; at most ${megabytes(largestFileBytes)} go with an entry, and it is no photo that could be made smaller. It was not added: keep it, and name it in the text.`,
        )
    }
    setRemarks(said)
    props.onChange([...props.files, ...taken])
  }
  return (
    <div class="field-files">
      <label>
        Photos and files
        <input
          type="file"
          multiple
          accept="image/*,audio/*,.pdf,.csv,.txt"
          onChange={(event) => {
            void take(event.currentTarget.files)
            event.currentTarget.value = ''
          }}
        />
      </label>
      <Show when={props.files.length > 0}>
        <ul>
          <For each={props.files}>
            {(file) => (
              <li>
                {file.name}, {megabytes(file.size)}{' '}
                <button
                  type="button"
                  onClick={() => props.onChange(props.files.filter((one) => one !== file))}
                >
                  Take away {file.name}
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <For each={remarks()}>
        {(remark) => (
          <p class="trouble" role="alert">
            {remark}
          </p>
        )}
      </For>
    </div>
  )
}
