import { For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { surfacePane } from '../../derived/what-if-surface.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { createSurfaces } from './create-surfaces.ts'

/** The surface officially and in the sandbox side by side, what lies between, and every point of it that moves. */
export function SandboxSurface(props: {
  series: Series
  values: ReadonlyMap<string, ReducedSeries> | null
  moved: ReadonlySet<string>
  asOfEpochMs: number
}) {
  const surfaces = createSurfaces(
    () => props.series,
    () => props.values,
    () => props.moved,
    () => props.asOfEpochMs,
  )
  const isWater = () => surfaces.of()?.kind === 'water'
  const unit = () => (isWater() ? 'm' : 'mm')
  const decimals = () => (isWater() ? 3 : 2)
  const what = () =>
    isWater() ? `Piezometric level in ${surfaces.of()?.stratum ?? 'no stratum'}` : 'Settlement'
  const text = (value: number | null) => formatValue(value, decimals())
  return (
    <section class="what-if-surface" aria-label="Surface">
      <h3>
        {what()}, {unit()}, at the clock
      </h3>
      <For each={surfaces.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={surfaces.trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show when={surfaces.found()} fallback={<p class="waiting">The surface is being worked out.</p>}>
        {(found) => {
          const movedPoints = () => found().points.filter(({ official, sandbox }) => official !== sandbox)
          const pane = (title: string, surface: Outcome<GroundMap>) => (
            <Pane
              title={title}
              surface={surface}
              ground={{
                points: found().places,
                barriers: surfaces.barriers(),
                moved: new Set(movedPoints().map(({ id }) => id)),
              }}
            />
          )
          return (
            <>
              <div class="what-if-panes">
                {pane('Official', found().official)}
                {pane('Sandbox', found().sandbox)}
                {pane('Sandbox less official, straight between points', found().difference)}
              </div>
              <p>
                Points of the surface that the sandbox moves: {movedPoints().length} of{' '}
                {found().points.length}. Lines are drawn by the rules of the plan, walls and silent points
                left open.
              </p>
              <Show when={movedPoints().length > 0}>
                <section
                  class="scroll-across"
                  aria-label="Points of the surface, scroll sideways"
                  tabindex="0"
                >
                  <table class="plain">
                    <caption>
                      {what()}, {unit()}: points that are moved
                    </caption>
                    <thead>
                      <tr>
                        <th scope="col">Point</th>
                        <th scope="col">Official</th>
                        <th scope="col">Sandbox</th>
                        <th scope="col">Difference</th>
                      </tr>
                    </thead>
                    <tbody>
                      <For each={movedPoints()}>
                        {({ id, official, sandbox }) => (
                          <tr>
                            <th scope="row">{id}</th>
                            <td>{text(official)}</td>
                            <td>{text(sandbox)}</td>
                            <td>
                              {official === null || sandbox === null
                                ? '–'
                                : withUnit(text(sandbox - official), unit())}
                            </td>
                          </tr>
                        )}
                      </For>
                    </tbody>
                  </table>
                </section>
              </Show>
            </>
          )
        }}
      </Show>
    </section>
  )
}

function Pane(props: {
  title: string
  surface: Outcome<GroundMap>
  ground: Parameters<typeof surfacePane>[1]
}) {
  const drawn = () => surfacePane(props.surface.ok ? props.surface.value : null, props.ground)
  const size = () => Math.max(drawn().widthMetres, drawn().heightMetres)
  const said = () => (props.surface.ok ? '' : props.surface.issues.map(({ message }) => message).join(' '))
  return (
    <figure>
      <figcaption>{props.title}</figcaption>
      <svg
        viewBox={`0 0 ${drawn().widthMetres} ${drawn().heightMetres}`}
        role="img"
        aria-label={`${props.title}: contours of the surface, north up; the values of its points stand in the table below.`}
      >
        <For each={drawn().barriers}>{(path) => <path class="barrier" d={path} />}</For>
        <For each={drawn().lines}>
          {({ path, certain }) => <path class="contour" classList={{ uncertain: !certain }} d={path} />}
        </For>
        <For each={drawn().points}>
          {({ x, y, isMoved }) => (
            <circle classList={{ moved: isMoved }} cx={x} cy={y} r={(isMoved ? 0.012 : 0.008) * size()} />
          )}
        </For>
        <For each={drawn().labels}>
          {({ x, y, text }) => (
            <text x={x} y={y} font-size={`${0.042 * size()}`}>
              {text}
            </text>
          )}
        </For>
      </svg>
      <Show when={said() !== ''}>
        <p class="waiting">{said()}</p>
      </Show>
    </figure>
  )
}
