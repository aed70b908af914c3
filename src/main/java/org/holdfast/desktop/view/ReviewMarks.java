package org.holdfast.desktop.view;

import java.util.List;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkReading;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** The marks of one cut of the review. */
final class ReviewMarks implements MarkSheet {

    private final ReviewViewModel review;
    private final CutRow row;
    private final int exam;

    ReviewMarks(ReviewViewModel review, CutRow row, int exam) {
        this.review = review;
        this.row = row;
        this.exam = exam;
    }

    @Override
    public List<ImageMark> on(FlatPicture picture) {
        return review.stateProperty().get().marks().stream()
                .filter(mark -> shows(picture, mark.place()))
                .toList();
    }

    @Override
    public MarkReading read(ImageMark mark) {
        return MarkReading.of(mark, review.columns().get(exam).volume());
    }

    @Override
    public MarkPlace place(FlatPicture picture) {
        return new MarkPlace(
                review.stateProperty().get().partId(),
                exam,
                picture.place(0, 0),
                picture.axes(),
                review.stateProperty().get().slab());
    }

    /** A mark is shown up to half a step from its plane, so that stepping shows it exactly once. */
    @Override
    public boolean shows(FlatPicture picture, MarkPlace place) {
        return place.isShownBy(exam, picture.place(0, 0), picture.axes(), review.stepMm(row, exam) / 2);
    }

    @Override
    public void add(ImageMark mark) {
        review.addMark(mark);
    }

    @Override
    public void change(ImageMark changed, Object gesture) {
        review.changeMark(changed, gesture);
    }

    @Override
    public void remove(ImageMark mark) {
        review.removeMark(mark);
    }
}
