import { type ShownState, shownStates } from '../work/protocol.js';

const words: Readonly<Record<ShownState, readonly [name: string, what: string]>> = {
  part: ['Part', 'the finished metal part'],
  casting: ['Casting', 'as poured, with the stock to take off'],
  pattern: ['Pattern', 'what is printed, grown for contraction'],
  gated: ['Gated', 'with sprue, pour cup and vents'],
  plate: ['Plate', 'gated patterns on the print bed'],
};

/** The five states of a piece, in the order of the work. */
export function Stations({
  shown,
  onShow,
}: {
  readonly shown: ShownState;
  readonly onShow: (state: ShownState) => void;
}) {
  return (
    <fieldset class="stations">
      <legend class="unseen">State that is shown</legend>
      {shownStates.map((state) => (
        <label key={state} title={words[state][1]}>
          <input
            type="radio"
            name="shown-state"
            value={state}
            checked={shown === state}
            onChange={() => onShow(state)}
          />
          <span>
            {words[state][0]}
            <span class="unseen">, {words[state][1]}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
