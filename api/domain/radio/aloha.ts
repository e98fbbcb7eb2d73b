/**
 * Senders that do not listen before they send (pure ALOHA; Abramson 1970). `offeredLoad` is the mean number of packets
 * begun in the length of one, in one channel.
 */
export const alohaSuccess = (offeredLoad: number): number => Math.exp(-2 * offeredLoad)

/** Packets got through in the length of one; greatest, 1 / 2e, at a load of one half. */
export const alohaThroughput = (offeredLoad: number): number => offeredLoad * alohaSuccess(offeredLoad)

export const loadOfMostThroughput = 0.5

/** Load that `senders` offer to one of `channels`, each beginning a packet every `intervalSeconds`. */
export const offeredLoad = (
  senders: number,
  onAirSeconds: number,
  intervalSeconds: number,
  channels: number,
): number => (senders * onAirSeconds) / (intervalSeconds * channels)

/** Greatest whole number of senders whose load does not pass `load`. */
export const sendersAtLoad = (
  load: number,
  onAirSeconds: number,
  intervalSeconds: number,
  channels: number,
): number => Math.floor((load * intervalSeconds * channels) / onAirSeconds)

/** Load at which a packet comes through with probability `success`, above 0 and at most 1. */
export const loadForSuccess = (success: number): number => -Math.log(success) / 2

/**
 * Chance that a packet of one of `senders` meets none of the others', each sending `sendings` times in every interval at
 * phases of their own, on a channel drawn anew for each packet: (1 − 2·t / (T·c))^((N − 1)·k). A share of a sender counts
 * as that share of one. For very many it is `alohaSuccess`. 0 where one channel's packets are so long that they must meet.
 */
export function periodicSuccess(
  senders: number,
  onAirSeconds: number,
  intervalSeconds: number,
  channels: number,
  sendings = 1,
): number {
  const meeting = Math.min(1, (2 * onAirSeconds) / intervalSeconds) / channels
  return (1 - meeting) ** (Math.max(0, senders - 1) * sendings)
}
