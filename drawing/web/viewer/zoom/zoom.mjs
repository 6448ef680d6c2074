// What fingers, a mouse and its wheel do to move and zoom what an element shows.
//
//   const g = gestures(element, { may(event), moved(k, x, y, event) });
//   g.stands(k, x, y, least, most)    how it is shown: a place p of it at p * k + (x, y) px
//
// may is asked as a gesture begins and lets stands know how things are; moved is told how they are to be.
import { zoom, zoomIdentity } from "d3-zoom";
import { select } from "d3-selection";

globalThis.gestures = (element, { may, moved }) => {
  const behaviour = zoom().filter(may).touchable(() => true)
    .on("zoom", (e) => moved(e.transform.k, e.transform.x, e.transform.y, e.sourceEvent));
  const shown = select(element).call(behaviour).on("dblclick.zoom", null); // two taps are two taps
  return {
    stands(k, x, y, least, most) {
      behaviour.scaleExtent([least, most]);
      shown.property("__zoom", zoomIdentity.translate(x, y).scale(k));
    },
  };
};
