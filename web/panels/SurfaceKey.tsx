import { For, Show } from 'solid-js'
import { planSurface } from '../state/plan-surface.ts'
import { palette } from '../state/theme.ts'
import { bandColour } from '../views/plan-map/layers/surface-colour.ts'
import type { SurfaceDrawing, SurfaceKeyRow } from '../views/plan-map/layers/surface-layers.ts'

/** What the signs of the surface on the plan mean. */
export function SurfaceKey() {
  return (
    <Show when={planSurface()}>
      {(surface) => (
        <ul class="surface-key">
          <For each={surface().key}>
            {(row) => (
              <li class="surface-key-row">
                <Sign row={row} surface={surface()} />
                <span>{row.says}</span>
              </li>
            )}
          </For>
        </ul>
      )}
    </Show>
  )
}

function Sign(props: { row: SurfaceKeyRow; surface: SurfaceDrawing }) {
  const ink = () => palette().ink
  const fill = () => {
    const [red, green, blue, opacity] = bandColour(props.surface, props.row.middle ?? 0, palette())
    return `rgb(${red} ${green} ${blue} / ${Math.round((100 * opacity) / 255)}%)`
  }
  const parts = {
    band: () => <rect x="1" y="1" width="26" height="14" fill={fill()} stroke={palette().inkSoft} />,
    dashes: () => <path d="M1 8h26" stroke={ink()} stroke-width="1.6" stroke-dasharray="5 4" />,
    hatch: () => <path d="M1 13 13 1M7 15 21 1M15 15 27 3" stroke={palette().inkSoft} stroke-width="1.2" />,
    arrow: () => (
      <>
        <path d="M2 8h16" stroke={ink()} stroke-width="2" />
        <path d="M27 8 17 3.5v9z" fill={ink()} />
      </>
    ),
    'open-arrow': () => (
      <>
        <path d="M2 8h15" stroke={ink()} stroke-width="2" />
        <path d="M26 8 17 3.5v9z" fill="none" stroke={ink()} stroke-width="1.6" />
      </>
    ),
    ring: () => <circle cx="14" cy="8" r="5" fill="none" stroke={ink()} stroke-width="1.6" />,
    mark: () => <circle cx="14" cy="8" r="6.5" fill="none" stroke={ink()} stroke-width="2.5" />,
  } satisfies Record<SurfaceKeyRow['sign'], () => unknown>
  return (
    <svg class="surface-key-sign" viewBox="0 0 28 16" width="28" height="16" aria-hidden="true">
      {parts[props.row.sign]()}
    </svg>
  )
}
