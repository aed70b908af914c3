package org.holdfast.desktop.state;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.construct.PartKind;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Slab;

/**
 * Everything that a review shows of a subject, but for the data themselves. Immutable; each act gives a new state.
 *
 * @param partId the chosen part
 * @param exam index of the chosen exam
 * @param linked whether all exams are shown through one look
 * @param look the look of all exams while they are linked, and of those that have none of their own
 * @param own looks of single exams while they are free
 * @param slab layer that is drawn into one picture; empty for the plane alone
 * @param marks lengths, angles and regions drawn so far, in the order in which they were drawn
 * @param films looks of radiographs; one without is fitted
 * @param maps what the pictures of parts of a kind show; those without show the usual
 * @param nudged poses that were set by hand, by exam: from the reference exam to that of the exam
 */
public record ReviewState(
        String partId,
        int exam,
        boolean linked,
        CutLook look,
        Map<Integer, CutLook> own,
        Optional<Slab> slab,
        List<ImageMark> marks,
        Map<FilmPlace, FilmLook> films,
        Map<PartKind, MapKind> maps,
        Map<Integer, RigidTransform> nudged) {

    public ReviewState {
        Objects.requireNonNull(partId, "partId");
        Objects.requireNonNull(look, "look");
        Objects.requireNonNull(slab, "slab");
        own = Map.copyOf(own);
        marks = List.copyOf(marks);
        films = Map.copyOf(films);
        maps = Map.copyOf(maps);
        nudged = Map.copyOf(nudged);
        if (linked && !own.isEmpty()) {
            throw new IllegalArgumentException("linked exams have no looks of their own, got " + own.keySet());
        }
    }

    /** A state in which every radiograph is fitted, every map the usual one and nothing nudged. */
    public ReviewState(
            String partId,
            int exam,
            boolean linked,
            CutLook look,
            Map<Integer, CutLook> own,
            Optional<Slab> slab,
            List<ImageMark> marks) {
        this(partId, exam, linked, look, own, slab, marks, Map.of(), Map.of(), Map.of());
    }

    /** A first state: one part, one exam, linked, the plane alone, no marks. */
    public static ReviewState first(String partId, int exam, CutLook look) {
        return new ReviewState(partId, exam, true, look, Map.of(), Optional.empty(), List.of());
    }

    /** How an exam is looked at. */
    public CutLook lookOf(int examIndex) {
        return own.getOrDefault(examIndex, look);
    }

    /** How a radiograph is looked at. */
    public FilmLook lookOf(FilmPlace film) {
        return films.getOrDefault(film, FilmLook.FITTED);
    }

    /** What the pictures of parts of a kind show; empty where there is nothing to map. */
    public Optional<MapKind> mapOf(PartKind part) {
        return Optional.ofNullable(maps.get(part))
                .or(() -> MapKind.of(part).stream().findFirst());
    }

    /** Another map of parts of a kind. */
    public ReviewState withMap(PartKind part, MapKind map) {
        Map<PartKind, MapKind> others = new HashMap<>(maps);
        others.put(part, map);
        return new ReviewState(partId, exam, linked, look, own, slab, marks, films, others, nudged);
    }

    /** A pose set by hand in an exam, or none any more. */
    public ReviewState withNudged(int examIndex, Optional<RigidTransform> referenceToExam) {
        Map<Integer, RigidTransform> others = new HashMap<>(nudged);
        others.remove(examIndex);
        referenceToExam.ifPresent(pose -> others.put(examIndex, pose));
        return new ReviewState(partId, exam, linked, look, own, slab, marks, films, maps, others);
    }

    /** Another look at a radiograph. */
    public ReviewState withLook(FilmPlace film, FilmLook other) {
        Map<FilmPlace, FilmLook> looks = new HashMap<>(films);
        looks.put(film, other);
        return new ReviewState(partId, exam, linked, look, own, slab, marks, looks, maps, nudged);
    }

    /** The choice of another exam. */
    public ReviewState withExam(int examIndex) {
        return new ReviewState(partId, examIndex, linked, look, own, slab, marks, films, maps, nudged);
    }

    /** The choice of another part, looked at anew on every exam; the windows stay. */
    public ReviewState withPart(String id, CutLook anew) {
        Map<Integer, CutLook> others = new HashMap<>();
        own.forEach((examIndex, old) -> others.put(examIndex, anew.through(old.window())));
        return new ReviewState(id, exam, linked, anew.through(look.window()), others, slab, marks, films, maps, nudged);
    }

    /** Another look at an exam: of that exam alone if the exams are free, else of all. */
    public ReviewState withLook(int examIndex, CutLook other) {
        if (linked) {
            return new ReviewState(partId, exam, true, other, own, slab, marks, films, maps, nudged);
        }
        Map<Integer, CutLook> others = new HashMap<>(own);
        others.put(examIndex, other);
        return new ReviewState(partId, exam, false, look, others, slab, marks, films, maps, nudged);
    }

    /** Exams linked, all through the chosen exam's look, or set free, each keeping the look that it has. */
    public ReviewState withLinked(boolean areLinked) {
        return new ReviewState(
                partId, exam, areLinked, areLinked ? lookOf(exam) : look, Map.of(), slab, marks, films, maps, nudged);
    }

    /** Another layer, or none. */
    public ReviewState withSlab(Optional<Slab> other) {
        return new ReviewState(partId, exam, linked, look, own, other, marks, films, maps, nudged);
    }

    /** A further mark. */
    public ReviewState withMark(ImageMark mark) {
        List<ImageMark> more = new ArrayList<>(marks);
        more.add(mark);
        return new ReviewState(partId, exam, linked, look, own, slab, more, films, maps, nudged);
    }

    /** A mark in another shape; it keeps its place in the order. */
    public ReviewState withMarkChanged(ImageMark changed) {
        List<ImageMark> others = new ArrayList<>(marks);
        others.replaceAll(mark -> mark.id().equals(changed.id()) ? changed : mark);
        return new ReviewState(partId, exam, linked, look, own, slab, others, films, maps, nudged);
    }

    /** One mark less. */
    public ReviewState withoutMark(ImageMark mark) {
        List<ImageMark> fewer = new ArrayList<>(marks);
        fewer.removeIf(other -> other.id().equals(mark.id()));
        return new ReviewState(partId, exam, linked, look, own, slab, fewer, films, maps, nudged);
    }
}
