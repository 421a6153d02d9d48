/** Over the page while files are held over it. */
export const DropSign = ({ shown }: { readonly shown: boolean }) =>
  shown ? (
    <p class="drop-sign" aria-hidden="true">
      Let go to open it
    </p>
  ) : null;
