import type { KnownSite } from '#domain/field/known-site.ts'
import { fieldGuide } from '../../../state/field-guide.ts'
import { siteDocument } from '../../../state/site-document.ts'

/** As much of the site as this device keeps, for an installation to be held against. */
export function knownSite(): KnownSite {
  const document = siteDocument()
  return {
    locations: document?.locations ?? [],
    instruments: document?.instruments ?? [],
    points: document?.points ?? [],
    loggers: document?.loggers ?? [],
    strata: document?.strata ?? [],
    wiring: (fieldGuide()?.sensors ?? []).flatMap(({ id, wiring }) =>
      wiring ? [{ ...wiring, sensor: id, fromAt: Number.NEGATIVE_INFINITY, untilAt: null }] : [],
    ),
  }
}
