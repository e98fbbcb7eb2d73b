import type { FolderFault } from './folder-fault.ts'

/** Faults of works. */
export const worksFaults: readonly FolderFault[] = [
  [
    'works.geojson',
    '"FeatureCollection"',
    '"Features"',
    { code: 'geojson-structure', line: 1 },
    /FeatureCollection/,
  ],
  ['works.geojson', '  ]\n}', '  ]\n', { code: 'json-unreadable' }, /not JSON/],
  [
    'works.geojson',
    '[-30,48],[-29.99,48]]',
    '[500030,309990],[-29.99,48]]',
    { code: 'geometry', line: 5, column: 'features[1].geometry.coordinates[0]' },
    /longitude first/,
  ],
  [
    'works.geojson',
    '[-30,48]]]',
    '[-30,48.001]]]',
    { code: 'geometry', line: 4, column: 'features[0].geometry.coordinates[0]' },
    /not closed/,
  ],
  [
    'works.geojson',
    '"kind":"wall"',
    '"kind":"walls"',
    { code: 'choice-unknown', line: 5, column: 'features[1].properties.kind', value: 'walls' },
    /Did you mean "wall"/,
  ],
  [
    'works.geojson',
    '"barrier":true',
    '"barier":true',
    { code: 'property-unknown', line: 5, column: 'features[1].properties.barier' },
    /Did you mean "barrier"/,
  ],
  ['works.geojson', '"id":"wall"', '"id":"box"', { code: 'key-repeated', line: 5, value: 'box' }, /line 4/],
  [
    'works.geojson',
    '"topLevelMetres":4.6,"baseLevelMetres":-18',
    '"topLevelMetres":-18,"baseLevelMetres":4.6',
    { code: 'top-below-base', line: 5 },
    /above the base/,
  ],
]
