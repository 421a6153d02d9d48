import type { LearntGrowth } from '../../../core/job/logged-growth.js';
import type { Sources } from './protocol.js';

/** What the opened pour log teaches; undefined without one. Lines that cannot be read are passed over. */
export async function learntFrom({ log }: Sources): Promise<LearntGrowth | undefined> {
  if (log === undefined) return undefined;
  const [{ parseLog }, { growthFromLog }] = await Promise.all([
    import('../../../core/log/line.js'),
    import('../../../core/log/growth.js'),
  ]);
  const { records } = parseLog(log.text);
  return (alloy, investment) => growthFromLog(records, alloy, investment);
}
