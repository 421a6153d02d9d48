/** What must stand on every page: care, and whose word comes first. */
export function Foot() {
  return (
    <footer class="foot">
      <p>
        <strong>Take care.</strong> Molten metal, steam from damp moulds, burnout fumes, zinc and lead fume
        and silica dust injure and kill. The traveller prints the usual cautions at each step. Makers’
        datasheets, local codes and licensed practice come first: what is worked out here is advice, not a
        guarantee. Where a failure could hurt someone, have the part designed by a qualified engineer.
      </p>
      <p>Everything is worked out in this page: nothing you enter leaves this machine.</p>
    </footer>
  );
}
