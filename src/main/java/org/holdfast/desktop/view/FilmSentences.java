package org.holdfast.desktop.view;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.holdfast.app.FilmExam;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.FilmWords;
import org.holdfast.finding.Finding;
import org.holdfast.volume.PixelScale;

/** What a person should know about an exam of radiographs, a sentence each. */
final class FilmSentences {

    private FilmSentences() {}

    static List<String> of(FilmExam exam) {
        Set<String> all = new LinkedHashSet<>();
        for (FilmExam.Film film : exam.films()) {
            PixelScale scale = film.facts().scale();
            all.add(Words.sentence(film.modality() + ", " + FilmWords.view(film.facts()) + ": scale " + scale.words()));
            film.findings().stream().map(Finding::text).map(Words::sentence).forEach(all::add);
        }
        exam.findings().stream().map(Finding::text).map(Words::sentence).forEach(all::add);
        return List.copyOf(all);
    }
}
