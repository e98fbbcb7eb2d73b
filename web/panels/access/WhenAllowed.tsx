import { type JSX, Show } from 'solid-js'
import type { Action } from '#domain/access/permissions.ts'
import { hindranceTo, isVisitor } from '../../state/permitted.ts'

/** Offers what one may do; in its place says why one may not. */
export function WhenAllowed(props: {
  to: Action
  /** It can be tried without saving anything, by a visitor too. */
  toTry?: boolean
  children: JSX.Element
}) {
  const hindrance = () => (props.toTry && isVisitor() ? null : hindranceTo(props.to))
  return (
    <Show when={hindrance() === null} fallback={<p class="waiting">{hindrance()}</p>}>
      {props.children}
    </Show>
  )
}
