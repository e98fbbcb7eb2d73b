import { type Analysis, estimated, given, type Quantity } from '../ground/analysis.ts'
import { breakDistanceMetres, freeSpaceLossDb, twoRayLossDb, wavelengthMetres } from './free-space.ts'
import { groundLevelMetres } from './ground-level.ts'
import { dayToDayDb } from './logger-links.ts'
import { blockMetres, type NetworkCheck } from './network-check.ts'
import type { NetworkModel } from './network-model.ts'
import type { RadioSite } from './radio-site.ts'
import type { SpotPath } from './spot-paths.ts'

/** What the fit of a network rests on, found, left out and does not know. */
export function accountOfNetwork(
  { fit, curve, spots }: NetworkModel,
  site: RadioSite,
  check: NetworkCheck | null,
): Analysis<SpotPath> {
  const { terms } = site
  const { shared } = fit
  const partly = curve.partlyDelivered
  return {
    method:
      'Log-distance path loss (signal at 10 m and exponent, by greatest likelihood with Student’s t of 2 degrees of freedom, spots of which only a bound is known counted with its chance after Tobin 1958), over edges after Deygout (1966) with the knife-edge approximation of Recommendation ITU-R P.526.',
    parameters: [
      given('Frequency', terms.frequencyMHz, 'MHz'),
      given('Bandwidth', terms.bandwidthHz / 1000, 'kHz'),
      given('Noise figure of the receiver', terms.noiseFigureDb, 'dB'),
      given('Antenna of a test above the ground', site.carriedHeightMetres, 'm'),
      given('Spots left out together within', blockMetres, 'm'),
      given('Change of an untouched link from day to day', dayToDayDb, 'dB'),
    ],
    found: [
      ...foundOf('All spots', shared),
      ...fit.gateways.flatMap((one) => (one.sharedBecause === null ? foundOf(one.gateway, one.fit) : [])),
      ...(shared.worksLoss
        ? [
            estimated(
              'Loss besides inside an excavation',
              shared.worksLoss.lossDb,
              'dB',
              shared.worksLoss.standardErrorDb,
            ),
          ]
        : []),
      estimated('Margin at which half arrives', curve.halfAtDb, 'dB', null),
      estimated('Scatter of single packets about the mean signal', curve.widthDb, 'dB', null),
      ...comparisonOf(spots, site),
      ...(check
        ? [
            estimated('Leave-one-spot-out error', check.rootMeanSquareDb, 'dB', null),
            estimated('The same without edges', check.withoutEdgesDb, 'dB', null),
            estimated('The same by the mean of the others alone', check.byMeanDb, 'dB', null),
          ]
        : []),
    ],
    used: spots.filter(({ signalDbm }) => signalDbm !== null),
    leftOut: spots.flatMap((item) => (item.signalDbm === null ? [{ item, reason: item.how }] : [])),
    remarks: [
      ...fit.gateways.flatMap(({ gateway, sharedBecause }) =>
        sharedBecause === null ? [] : [`${gateway} is predicted with the fit of all spots. ${sharedBecause}`],
      ),
      ...(partly === null
        ? [
            'Too few tests lie between nothing and everything delivered to find how delivery grows with the margin; the usual curve was taken (half at the sensitivity, packets scattering 4 dB).',
          ]
        : [
            `How delivery grows with the margin was found from ${partly} counts between nothing and everything.`,
          ]),
      ...remarksOfCheck(check),
      ...(spots.some(({ gatewayStated }) => !gatewayStated)
        ? [
            'Tests that do not say which gateway heard them count for the one with the least loss over their path.',
          ]
        : []),
      'A signal belongs to the gateway that heard the test best: the fits lean a little to the strong side.',
      'Walls, buildings and stacks of the works count with their stated tops; steel, plant, trees, rain and people do not, nor does what goes through or around a thing instead of over it.',
      'Signals are taken as those of the packets themselves (with the noise taken out where it is stronger than they).',
      'Tests were made on one day each. A link is proven by packets over days, not by a fit.',
    ],
  }
}

const foundOf = (name: string, fit: NetworkModel['fit']['shared']): readonly Quantity[] => [
  estimated(`${name}: signal at 10 m`, fit.signalAt10MetresDbm, 'dBm', fit.standardErrors.signalAt10MetresDb),
  estimated(`${name}: exponent`, fit.exponent, '', fit.standardErrors.exponent),
  estimated(`${name}: spread of the spots`, fit.spreadDb, 'dB', null),
]

/** What open country would take over the same middle distance, and up to where its two waves do not settle. */
function comparisonOf(spots: readonly SpotPath[], site: RadioSite) {
  const { terms, gateways, carriedHeightMetres } = site
  const distances = spots.map(({ path }) => path.distanceMetres).toSorted((one, other) => one - other)
  const middle = distances[distances.length >> 1]
  const mast = gateways[0]
  if (middle === undefined || !mast) return []
  const wavelength = wavelengthMetres(terms.frequencyMHz)
  const foot = groundLevelMetres(site.ground, [mast.eastingMetres, mast.northingMetres], 0)
  const height = Math.max(1, mast.levelMetres - foot)
  return [
    given('Middle distance of the spots', middle, 'm'),
    given('Free-space loss there', freeSpaceLossDb(middle, terms.frequencyMHz), 'dB'),
    given(
      'Loss there over flat bare ground (two rays, first gateway)',
      twoRayLossDb(middle, height, carriedHeightMetres, wavelength),
      'dB',
    ),
    given(
      'Distance beyond which such ground takes the fourth power (4 h h / λ)',
      breakDistanceMetres(height, carriedHeightMetres, wavelength),
      'm',
    ),
  ]
}

function remarksOfCheck(check: NetworkCheck | null): readonly string[] {
  if (!check) return []
  const percent = (share: number) => `${Math.round(100 * share)} %`
  const edges =
    check.withoutEdgesDb <= check.rootMeanSquareDb
      ? 'Edges did not make the spots better predicted here: what the fit says of shadows rests on the recommendation, not on these tests.'
      : 'Edges made the spots better predicted.'
  return [
    `Left out in ${check.blocks} blocks, ${check.spots} spots were met within ${check.rootMeanSquareDb.toFixed(1)} dB (root mean square); ${percent(check.withinInterval)} lay within their 90 % interval. Distance and edges account for ${percent(Math.max(0, check.skill))} of what the mean of the others leaves.`,
    edges,
  ]
}
