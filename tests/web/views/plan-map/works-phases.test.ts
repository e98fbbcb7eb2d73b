import { describe, expect, it } from 'vitest'
import type { Works } from '#domain/site/site.ts'
import { phaseSignature, worksAt } from '../../../../web/views/plan-map/works-phases.ts'

const part = (
  id: string,
  fromEpochMs: number | null,
  untilEpochMs: number | null,
): Works['features'][number] => ({
  type: 'Feature',
  geometry: { type: 'Point', coordinates: [0, 0] },
  properties: {
    id,
    kind: 'excavation',
    name: id,
    barrier: false,
    fromEpochMs,
    untilEpochMs,
    topLevelMetres: null,
    baseLevelMetres: null,
  },
})

const works: Works = {
  type: 'FeatureCollection',
  features: [part('always', null, null), part('first', 10, 20), part('second', 20, null)],
}
const shown = (at: number) =>
  worksAt(works, at).features.map(({ properties }) => `${properties.id} ${properties.phase}`)

describe('works at an instant', () => {
  it('are to come before their first instant and gone from their last on', () => {
    expect(shown(9)).toEqual(['always there', 'first to-come', 'second to-come'])
    expect(shown(10)).toEqual(['always there', 'first there', 'second to-come'])
    expect(shown(20)).toEqual(['always there', 'second there'])
  })

  it('have a signature that changes just when they do', () => {
    const instants = Array.from({ length: 40 }, (_, at) => at)
    for (const at of instants.slice(1)) {
      const changed = JSON.stringify(shown(at)) !== JSON.stringify(shown(at - 1))
      expect(phaseSignature(works, at) !== phaseSignature(works, at - 1)).toBe(changed)
    }
  })
})
