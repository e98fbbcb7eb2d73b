import { Show } from 'solid-js'
import { variogramParameters } from '#domain/ground/kriging/variogram-parameters.ts'
import { leftOutFigure, surfaceSectionFigure } from '../../derived/figures/surface-figures.ts'
import { isLayerShown, surfaceLayers, toggleLayer } from '../../state/plan-layers.ts'
import { surfaceTrouble, workedSurface } from '../../state/plan-surface.ts'
import { selectedPoint } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { SurfaceChoice } from '../SurfaceChoice.tsx'
import { SurfaceProgress } from '../SurfaceProgress.tsx'
import { TitledFigure } from './AnalysisResult.tsx'
import { ComputedTables } from './ComputedTables.tsx'
import { GradientTable } from './GradientTable.tsx'
import { SlopeTables } from './SlopeTables.tsx'

/** The surface that the plan shows, as numbers: how its points bear one another out, its section, volume and slope. */
export function SurfaceAnalysis() {
  const options = (title: string) => ({
    title,
    selected: selectedPoint()?.id ?? null,
    timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
  })
  const figures = (): readonly FigureProps[] => {
    const surface = workedSurface()
    if (!surface) return []
    const leftOut = leftOutFigure(surface, options(`${surface.what}: each place left out in turn`))
    const section = surfaceSectionFigure(
      surface,
      options(`${surface.what}, along the section line`),
      surface.unit === 'mm',
    )
    return [section, leftOut].filter((one): one is FigureProps => one !== null)
  }
  return (
    <Show
      when={surfaceLayers.some(isLayerShown)}
      fallback={
        <div class="buttons">
          <p class="waiting">The plan shows no surface.</p>
          <button type="button" onClick={() => toggleLayer('contours')}>
            Show settlement contours
          </button>
        </div>
      }
    >
      <div class="ground-fields">
        <SurfaceChoice />
      </div>
      <SurfaceProgress />
      <Show when={surfaceTrouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show when={workedSurface()} fallback={<p class="waiting">The surface is being worked out.</p>}>
        {(surface) => (
          <>
            <h2>{surface().what}</h2>
            <dl class="facts">
              <div>
                <dt>Between points</dt>
                <dd>{surface().drawnBy}</dd>
              </div>
              <Show when={surface().variogram}>
                {(variogram) => (
                  <div>
                    <dt>Variogram</dt>
                    <dd>{variogramParameters(variogram(), surface().unit)}</dd>
                  </div>
                )}
              </Show>
              <div>
                <dt>Area shown</dt>
                <dd>{withUnit(formatValue(surface().volume.areaSquareMetres, 0), 'm²')}</dd>
              </div>
              <Show when={surface().unit === 'mm'}>
                <div>
                  <dt>Volume of settlement</dt>
                  <dd>
                    {withUnit(formatValue(surface().volume.above / 1000, 2), 'm³')}, over the area shown
                  </dd>
                </div>
                <div>
                  <dt>Volume of heave</dt>
                  <dd>
                    {withUnit(formatValue(-surface().volume.below / 1000, 2), 'm³')}, never set off against it
                  </dd>
                </div>
                <div>
                  <dt>Steepest piece drawn</dt>
                  <dd>
                    {withUnit(formatValue(surface().steepest?.perMetre ?? null, 2), 'mm')} a metre at E{' '}
                    {formatValue(surface().steepest?.place[0] ?? null, 0)} N{' '}
                    {formatValue(surface().steepest?.place[1] ?? null, 0)}; steeper may lie between points
                  </dd>
                </div>
              </Show>
            </dl>
            <Show when={surface().slopes}>{(slopes) => <SlopeTables slopes={slopes()} />}</Show>
            <Show when={surface().computed}>
              {(computed) => <ComputedTables strings={computed().strings} compared={computed().compared} />}
            </Show>
            <Show when={surface().gradient}>
              {(gradient) => <GradientTable gradient={gradient()} drawnBy={surface().drawnBy} />}
            </Show>
            <Show when={surface().section.length === 0}>
              <p class="waiting">Draw a section line on the plan to see the surface along it.</p>
            </Show>
            <div class="ground-figures">
              <SurfaceFigures figures={figures()} />
            </div>
          </>
        )}
      </Show>
    </Show>
  )
}

function SurfaceFigures(props: { figures: readonly FigureProps[] }) {
  return (
    <>
      <Show when={props.figures[0]}>
        <TitledFigure shown={() => props.figures[0] as FigureProps} />
      </Show>
      <Show when={props.figures[1]}>
        <TitledFigure shown={() => props.figures[1] as FigureProps} />
      </Show>
    </>
  )
}
