import type { JSX } from 'solid-js'
import { Troubles } from './Troubles.tsx'
import './access.css'

/** A sheet over the page, with its name and what went wrong above what it holds. */
export function ModalSheet(props: {
  name: string
  troubles: readonly string[]
  closed: () => void
  children: JSX.Element
}) {
  return (
    <dialog
      class="key-sheet people-sheet"
      aria-label={props.name}
      ref={(dialog) => queueMicrotask(() => dialog.isConnected && dialog.showModal())}
      onClose={() => props.closed()}
    >
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
      <h2>{props.name}</h2>
      <Troubles sentences={props.troubles} />
      {props.children}
    </dialog>
  )
}
