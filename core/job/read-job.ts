/** From the text of a plate job to a `Job`, or to every problem in it with its place. */
import type { Alloy } from '../foundry/alloys/index.js';
import { type BurnoutTime, parseClockTime } from '../foundry/burnout.js';
import { findInvestment } from '../foundry/investment.js';
import { listSchemaFields } from '../part/field-list.js';
import { nestingFields } from './bed-schema.js';
import { gatingFields } from './gating-schema.js';
import type { Job } from './job.js';
import type { JobContext } from './job-context.js';
import { capProblems, type JobProblem } from './job-problem.js';
import { child, JobReader } from './job-reader.js';
import * as schema from './job-schema.js';
import { type OpenedSource, openSource } from './open-source.js';
import { present } from './present.js';
import { readBed } from './read-bed.js';
import { readFlasks } from './read-flasks.js';
import { gatingSettingsOf } from './read-gating.js';
import { joinMetals, readMetals } from './read-metals.js';
import { readParts } from './read-parts.js';
import { readPrices } from './read-prices.js';
import { checkShopKeys, noShop, type Place, placeOf, readShop } from './read-shop.js';
import type { Shop } from './shop.js';
import type { YamlNode } from './yaml-tree.js';

const longestPath = 4096;
/** The one setting that a shop profile may hold too. */
const layerField = schema.settingsFields.pick({ layerHeight: true });

export type JobReading =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly JobProblem[] };

/**
 * Reads a plate job from its text or its file's bytes. All problems are reported at once, in the order of the
 * file and at most twenty of them; of YAML syntax errors only the first. Never throws.
 */
export const parseJob = (source: string | Uint8Array, context: JobContext): JobReading =>
  readJob(openSource(source, context.fileName, 'job'), context);

/** Reads a plate job whose text has been taken apart already. */
export function readJob(opened: OpenedSource, context: JobContext): JobReading {
  if (!opened.ok) return opened;
  const { root, position } = opened;
  const reader = new JobReader(context.fileName, root, position);
  const shop = shopPlace(reader, root, context);
  if (!shop.ok) return shop;
  const job = readRoot(reader, root, shop.place, context);
  const problems = [...reader.problems, ...(shop.place.reader === reader ? [] : shop.place.reader.problems)];
  if (problems.length === 0 && job !== undefined) return { ok: true, job };
  return { ok: false, problems: capProblems(problems) };
}

/** The shop's keys: a group in the job, or the profile that the caller found. */
function shopPlace(
  reader: JobReader,
  root: YamlNode,
  { shop }: JobContext,
):
  | { readonly ok: true; readonly place: Place }
  | { readonly ok: false; readonly problems: readonly JobProblem[] } {
  const group = child(root, 'shop');
  if (group?.kind === 'map') return { ok: true, place: { reader, node: group, path: ['shop'] } };
  if (group !== undefined) reader.text(root, ['shop'], longestPath);
  return shop === undefined ? { ok: true, place: noShop() } : openShop(shop.source, shop.fileName);
}

/** The keys of a profile in a file of its own. */
function openShop(source: string | Uint8Array, file: string): ReturnType<typeof shopPlace> {
  const opened = openSource(source, file, 'profile');
  if (!opened.ok) return opened;
  const reader = new JobReader(file, opened.root, opened.position);
  return { ok: true, place: { reader, node: opened.root, path: [] } };
}

function readRoot(reader: JobReader, root: YamlNode, shopKeys: Place, given: JobContext): Job | undefined {
  const settingNames = listSchemaFields(schema.settingsFields).map((field) => field.name);
  reader.checkKeys(root, [], [...schema.jobWords, ...settingNames, 'growth', ...schema.jobGroups]);
  const unit = child(root, 'units');
  if (unit?.kind === 'scalar' && unit.value === 'in') reader.lengthUnit = 'in';
  checkShopKeys(shopKeys);
  const shop = readShop(shopKeys);
  const own = (shop?.alloys ?? []).map((alloy) => alloy.name);
  const context = { ...given, knownAlloys: [...given.knownAlloys, ...own] };
  const jobKeys: Place = { reader, node: root, path: [] };
  const placeFor = (key: string): Place => placeOf(key, jobKeys, shopKeys);
  const name = reader.name(root, ['job'], 'name the job, like ropewalk-drive');
  const title = reader.text(root, ['title'], schema.longestTitle);
  const settings = reader.fields(schema.settingsFields, root, [], false);
  const layers = placeFor('layerHeight');
  const layerHeight = layers.reader.fields(layerField, layers.node, layers.path, false)?.layerHeight;
  const notes = readNotes(reader, root);
  const common = {
    alloy: reader.word(root, ['alloy'], context.knownAlloys, 'unknown-alloy') ?? schema.jobDefaults.alloy,
    growth: reader.fields(schema.growthFields, root, [], false)?.growth,
    stock: present(reader.fieldGroup(schema.stockFields, root, ['stock']) ?? {}),
    isPacked: settings?.packFlasks === true,
  };
  const mould = placeFor('investment');
  const investment = mould.reader.word(
    mould.node,
    [...mould.path, 'investment'],
    context.knownInvestments,
    'unknown-investment',
  );
  const bed = readBed(placeFor('bed'));
  const plates = placeFor('nesting');
  const nesting = plates.reader.fieldGroup(nestingFields, plates.node, [...plates.path, 'nesting']);
  const correction = placeFor('printerCorrection');
  const printerCorrection = correction.reader.fieldGroup(schema.correctionFields, correction.node, [
    ...correction.path,
    'printerCorrection',
  ]);
  const gatingPlace = placeFor('gating');
  const gating = gatingPlace.reader.fieldGroup(gatingFields, gatingPlace.node, [
    ...gatingPlace.path,
    'gating',
  ]);
  const burnoutTime = readBurnoutTime(reader, root);
  const flasks = readFlasks(placeFor('flasks'));
  const parts = readParts(reader, root, context, common);
  const metals = metalsOf(jobKeys, shopKeys, context, shop?.alloys ?? []);
  const priced = placeFor('prices');
  const prices = readPrices(priced, context, new Set(parts.map((part) => part.alloy)), priced === jobKeys);
  if (name === undefined || settings === undefined || bed === undefined || printerCorrection === undefined)
    return undefined;
  if (shop === undefined || layerHeight === undefined || gating === undefined || nesting === undefined)
    return undefined;
  const gatingSettings = gatingSettingsOf(gating);
  checkWaterRatio(shopKeys, shop, investment ?? schema.jobDefaults.investment);
  return {
    name,
    title: title ?? name,
    notes,
    ...settings,
    ...(reader.lengthUnit === 'mm' ? {} : { textUnit: reader.lengthUnit }),
    layerHeight,
    shop,
    ...(burnoutTime === undefined ? {} : { burnoutTime }),
    investment: investment ?? schema.jobDefaults.investment,
    bed,
    nesting: present(nesting),
    printerCorrection,
    flasks,
    ...(Object.keys(gatingSettings).length === 0 ? {} : { gating: gatingSettings }),
    prices,
    ...(metals.length === 0 ? {} : { metals }),
    parts,
  };
}

/** The shop's metals and the job's, each read where it stands. */
function metalsOf(job: Place, shop: Place, { knownAlloys }: JobContext, own: readonly Alloy[]) {
  const [shops, jobs] = [shop, job].map((place) => readMetals(place, knownAlloys, own));
  return joinMetals(shops ?? [], jobs ?? []);
}

function readBurnoutTime(reader: JobReader, root: YamlNode): BurnoutTime | undefined {
  const startAt = reader.checked(root, ['startAt'], parseClockTime, 'unreadable');
  const pourAt = reader.checked(root, ['pourAt'], parseClockTime, 'unreadable');
  if (startAt !== undefined && pourAt !== undefined)
    reader.refuse(
      'given-twice',
      ['pourAt'],
      child(root, 'pourAt'),
      'is given beside startAt',
      'keep one of them',
    );
  return startAt !== undefined ? { startAt } : pourAt !== undefined ? { pourAt } : undefined;
}

/** A ratio that is right for one investment ruins another. */
function checkWaterRatio({ reader, node, path }: Place, shop: Shop, name: string): void {
  const { waterRatio } = shop.mixing;
  const investment = findInvestment(name);
  // A shell is not mixed: the ratio is for the shop's other moulds.
  if (waterRatio === undefined || investment === undefined || investment.coats) return;
  const [least, most] = investment.waterRatioRange;
  if (waterRatio >= least && waterRatio <= most) return;
  const ratio = child(child(node, 'mixing') ?? node, 'waterRatio');
  const said = `is outside what ${investment.title.toLowerCase()} takes`;
  reader.refuse('out-of-range', [...path, 'mixing', 'waterRatio'], ratio, said, `from ${least} to ${most}`);
}

function readNotes(reader: JobReader, root: YamlNode): readonly string[] {
  const items = reader.list(root, ['notes'], schema.mostNotes, 'notes') ?? [];
  return items.flatMap((item, i) => reader.line(item, ['notes', String(i)], schema.longestNote) ?? []);
}
