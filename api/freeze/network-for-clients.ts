import type { NetworkDocument } from '#contract/network-document.ts'

/**
 * What a client may see of the network: when each logger was heard and what it delivered, of which the counts by
 * condition are made, and which series it carries. By what way it came, how it is wired, and whose certificate it is stay out.
 */
export const networkForClients = (whole: NetworkDocument): NetworkDocument => ({
  site: whole.site,
  revision: whole.revision,
  forClients: true,
  asOfEpochMs: whole.asOfEpochMs,
  fromEpochMs: whole.fromEpochMs,
  loggers: whole.loggers.map((facts) => ({
    ...facts,
    wiredChannels: facts.wiredChannels.map(({ series, critical }) => ({ channel: '', series, critical })),
    routes: [],
  })),
  wiringConflicts: [],
  singlePoints: [],
  calibrations: {
    // One that is past its date counts in the condition; which one is not told.
    due: whole.calibrations.due.map(({ logger, dueEpochMs }) => ({
      logger,
      dueEpochMs,
      sensor: '',
      calibration: '',
      certificate: null,
    })),
    withoutDate: whole.calibrations.withoutDate,
    sensors: whole.calibrations.sensors,
  },
})
