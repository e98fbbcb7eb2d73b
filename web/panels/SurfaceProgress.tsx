import { Show } from 'solid-js'
import { surfaceProgress } from '../state/plan-surface.ts'

/** How far a surface is that takes long, and a way to stop it. */
export function SurfaceProgress() {
  return (
    <Show when={surfaceProgress()}>
      {(progress) => (
        <div class="buttons">
          <label class="waiting">
            Working out the surface, {Math.round(100 * progress().share)} %{' '}
            <progress max="1" value={progress().share} />
          </label>
          <Show when={progress().stop}>
            {(stop) => (
              <button type="button" onClick={() => stop()()}>
                Stop
              </button>
            )}
          </Show>
        </div>
      )}
    </Show>
  )
}
